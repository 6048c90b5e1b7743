using Athwart.Jobs.Render;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Render;

/// <summary>Recipes as an earlier version of the program wrote them, kept as files: they render the bytes they rendered then, for ever.</summary>
public sealed class OldRecipesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> Version1 => ["v1 exact", "v1 shorter", "v1 rate", "v1 mono", "v1 float"];

    // Issue 5, section 5: an old version is migrated and still renders the old bytes. The SHA-256 stands in each kept recipe.
    [Theory]
    [MemberData(nameof(Version1))]
    public void Render_RecipeOfVersion1_GivesTheBytesOfThen(string name)
    {
        TestTakes.Write(_folder.File("gate.wav"), SampleFormat.Int24, 9_000);
        TestTakes.Write(_folder.File("float.wav"), SampleFormat.Float32, 9_000, seed: 3);
        var path = _folder.File(name + ".recipe.json");
        File.Copy(Path.Combine(AppContext.BaseDirectory, "Render", "OldRecipes", name + ".recipe.json"), path);

        Assert.Equal(1, RecipeFiles.Read(path).Version);
        Assert.Equal(64, RecipeFiles.Read(path).Output.Sha256.Length);
        Assert.True(RenderJob.Run(new() { RecipePath = path, Options = new() { Durable = false } }, CancellationToken.None).IsSame);
    }

    // What an older program can render is still written in the version it reads.
    [Fact]
    public void ARecipeWithoutSteps_IsWrittenAsVersion1_AndOneWithStepsAsVersion2()
    {
        var recipe = RecipeFiles.Read(Path.Combine(AppContext.BaseDirectory, "Render", "OldRecipes", "v1 exact.recipe.json"));
        var treated = recipe with { Treatment = recipe.Treatment with { Steps = [Shape.Steps.Trim()] } };

        Assert.Equal(1, RecipeFiles.FromJson(RecipeFiles.ToJson(recipe)).Version);
        Assert.Equal(2, RecipeFiles.FromJson(RecipeFiles.ToJson(treated)).Version);
        Assert.Equal(treated.Treatment.Steps, RecipeFiles.FromJson(RecipeFiles.ToJson(treated)).Treatment.Steps!.Select(s => s), Shape.Steps.SameJson);
    }
}
