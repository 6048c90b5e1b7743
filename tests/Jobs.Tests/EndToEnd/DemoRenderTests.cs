using Athwart.Jobs.Render;
using Athwart.Jobs.Tests.Render;

namespace Athwart.Jobs.Tests.EndToEnd;

/// <summary>Recipes of the delivery, made again and undone.</summary>
[Collection(DemoDayGroup.Name)]
public sealed class DemoRenderTests(DemoDay day)
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void EveryRecipe_GivesTheDeliveredBytesAgain(int threads)
    {
        var recipes = Directory.GetFiles(day.Report.Delivery.Folder, "*.recipe.json");
        Assert.Equal(2 * day.Report.Delivery.Effects, recipes.Length);
        foreach (var recipe in recipes)
        {
            var again = Path.Combine(day.Scratch, "again.wav");
            var report = RenderJob.Run(new() { RecipePath = recipe, OutputPath = again, Options = new() { Threads = threads, Overwrite = true, Durable = false } }, CancellationToken.None);
            Assert.True(report.IsSame, recipe);
            Assert.Equal(File.ReadAllBytes(recipe.Replace(".recipe.json", ".wav", StringComparison.Ordinal)), File.ReadAllBytes(again));
        }
    }

    // Issue 2, section 4: the raw pair comes back to within one step. The side is rounded once in the decode and once more here.
    [Fact]
    public void TheRawPair_ComesBack_TheMidToTheBit_TheSideWithinOneStep()
    {
        var count = 0;
        foreach (var effect in day.Effects().Where(e => e.IsExact))
        {
            var back = Path.Combine(day.Scratch, "back.wav");
            RenderJob.Run(new() { RecipePath = effect.RecipePath, MidSide = true, OutputPath = back, Options = new() { Overwrite = true, Durable = false } }, CancellationToken.None);
            var (raw, recovered) = (TestTakes.Steps(effect.MidSide), TestTakes.Steps(back));
            Assert.True(raw[0].AsSpan().SequenceEqual(recovered[0]), effect.Name);
            Assert.InRange(raw[1].Zip(recovered[1], (a, b) => Math.Abs(a - b)).Max(), 0, 1);
            count++;
        }

        Assert.True(count > 10, $"{count} effects");
    }
}
