using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Deliver.Manifests;
using Athwart.Jobs.Demo;
using Athwart.Jobs.Render;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.EndToEnd;

/// <summary>The whole day of the demo, run once for all tests of it.</summary>
public sealed class DemoDay : IDisposable
{
    /// <summary>The side level that the demo delivers at.</summary>
    public const double SideLevel = -3;

    private readonly TemporaryFolder _folder = new();
    private readonly Dictionary<string, TakeDescription> _takes;

    public DemoDay()
    {
        Report = DemoJob.Run(new(System.IO.Path.Combine(_folder.Path, "demo")), null, CancellationToken.None);
        var recordings = Report.Card.Files.Where(f => f.Take is not null).Select(f => System.IO.Path.Combine(Report.Card.Folder, f.Path)).ToList();
        _takes = TakeAssembler.Assemble(recordings, CancellationToken.None).Takes.ToDictionary(t => t.Name, StringComparer.Ordinal);
    }

    public DemoReport Report { get; }

    public string Scratch => _folder.Path;

    public IEnumerable<ManifestFile> Files(string kind) => Report.Delivery.Manifest.Files.Where(f => string.Equals(f.Kind, kind, StringComparison.Ordinal));

    public string Delivered(string path) => System.IO.Path.Combine(Report.Delivery.Folder, path);

    /// <summary>A take as it lies on the card, which is the truth.</summary>
    public TakeDescription OnCard(string take) => _takes[take];

    public DemoTake Truth(int number) => Report.Card.Takes[number - 1];

    public TakeCheck Check(int number) => Report.Check.Takes.Single(t => string.Equals(t.Take.Name, Truth(number).Name, StringComparison.Ordinal));

    /// <summary>Every delivered effect with its recipe and the take it was cut from.</summary>
    internal IEnumerable<DeliveredOne> Effects()
    {
        foreach (var stereo in Files("stereo"))
        {
            var recipePath = Delivered(System.IO.Path.ChangeExtension(stereo.Path, ".recipe.json"));
            var recipe = RecipeFiles.Read(recipePath);
            var truth = Report.Card.Takes.Single(t => string.Equals(t.Name, recipe.Source.Take, StringComparison.Ordinal));
            var midside = Files("midside").Single(f => string.Equals(f.Effect, stereo.Effect, StringComparison.Ordinal) && f.Path.StartsWith(truth.Name, StringComparison.Ordinal) == stereo.Path.StartsWith(truth.Name, StringComparison.Ordinal) && f.Path.Replace("_midside", "", StringComparison.Ordinal) == stereo.Path.Replace("_stereo", "", StringComparison.Ordinal));
            yield return new(stereo.Effect!, Delivered(stereo.Path), Delivered(midside.Path), recipePath, recipe, OnCard(truth.Name), truth);
        }
    }

    /// <summary>Mid and side of the cut as they lie on the card, in steps of 24 bits; float takes in full scale 1.</summary>
    internal static (double[] Mid, double[] Side) Original(DeliveredOne effect)
    {
        using var take = effect.Take.Open();
        var length = (int)(effect.Recipe.Source.ToFrame - effect.Recipe.Source.FromFrame);
        var block = new PlanarBlock<double>(take.ChannelCount, length);
        take.Read(effect.Recipe.Source.FromFrame, length, block);
        var roles = effect.Truth.Roles.ToList();
        return (block.Channel(roles.IndexOf(ChannelRole.Mid)).ToArray(), block.Channel(roles.IndexOf(ChannelRole.Side)).ToArray());
    }

    public void Dispose() => _folder.Dispose();
}

/// <summary>One effect of the delivery.</summary>
internal sealed record DeliveredOne(string Name, string Stereo, string MidSide, string RecipePath, Recipe Recipe, TakeDescription Take, DemoTake Truth)
{
    public bool IsFloat => string.Equals(Truth.Word, "f32", StringComparison.Ordinal);

    /// <summary>Whether the mono fold must be the mid to the bit.</summary>
    public bool IsExact => !IsFloat && Recipe.Treatment is { TrimGain: 1, FadeInFrames: 0, FadeOutFrames: 0 };
}

/// <summary>Tests of the day share one run of it.</summary>
[CollectionDefinition(Name)]
public sealed class DemoDayGroup : ICollectionFixture<DemoDay>
{
    public const string Name = "demo day";
}
