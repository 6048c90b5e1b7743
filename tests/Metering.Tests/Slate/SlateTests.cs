using Athwart.Metering.Slate;
using Athwart.Quantities;
using Athwart.Scenes;
using Athwart.Scenes.Sources;

namespace Athwart.Metering.Tests.Slate;

/// <summary>Announced heads: voices of the scene generator near the rig, before and without other sounds.</summary>
public class SlateTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData(1, 48000, 120, 0.8, 3.2)]
    [InlineData(2, 96000, 210, 2.0, 6.5)]
    [InlineData(3, 44100, 95, 0.4, 2.4)]
    public void ASpokenHead_IsFound_WhereItIs(ulong seed, int rate, double pitch, double from, double to)
    {
        var found = Find(Head(seed, rate, pitch, from, to));

        Assert.NotNull(found);
        Assert.Equal((FindingKinds.VoiceSlate, ChannelRole.Mid, FindingSeverity.Note), (found.Kind, found.Role, found.Severity));
        Assert.Equal(from, (double)found.Range!.Value.From.Value / rate, 0.15);
        Assert.Equal(to, (double)found.Range!.Value.To.Value / rate, 0.3);
    }

    [Fact]
    public void AVoiceThatGoesOn_IsTheSubject_AndNoHead() => Assert.Null(Find(Head(5, 48000, 130, 0.5, 10)));

    [Fact]
    public void AVoiceAtTheEndOfTheTake_IsNoHead() => Assert.Null(Find(Head(6, 48000, 130, 8.5, 9.8)));

    [Fact]
    public void TakesWithoutAVoice_HaveNoHead()
    {
        var wrong = new List<string>();
        foreach (var seed in Enumerable.Range(1, 8).Select(i => (ulong)(7000 + i)))
        {
            var scene = SceneLottery.Draw(seed, 5);
            if (scene.Sources.All(s => s.Signal is not Voice) && Find(scene with { Ambience = [], SampleRateHertz = 48000 }) is { } found)
                wrong.Add($"{seed}: {string.Join(", ", scene.Sources.Select(s => s.Signal.GetType().Name))}: {found.Message}");
        }

        foreach (var line in wrong)
            output.WriteLine(line);
        Assert.Empty(wrong);
    }

    [Fact]
    public void TheHead_IsTheSame_HoweverTheTakeIsCutIntoBlocks()
    {
        var take = SceneRenderer.Render(Head(7, 48000, 120, 0.8, 3.2));
        Assert.Equal(Complete(take, 4096).Frames, Complete(take, 1000).Frames);
    }

    private static SlateHead Complete(RenderedScene take, int block)
    {
        var scan = new SlateScan(48000);
        for (var at = 0; at < take.Channels[0].Length; at += block)
        {
            var count = Math.Min(block, take.Channels[0].Length - at);
            scan.Add(take.Channels[0].AsSpan(at, count), take.Channels[1].AsSpan(at, count));
        }

        return scan.Complete();
    }

    private static Scene Head(ulong seed, int rate, double pitch, double from, double to) => new()
    {
        Seed = seed,
        SampleRateHertz = rate,
        LengthSeconds = 10,
        Sources =
        [
            new() { Signal = new Voice(from, to, pitch), Trajectory = new FixedPlace(new Place(0, 0, 1.5) + Place.Polar(12, 0.8)), LevelDecibels = 66 },
            new() { Signal = new Footsteps([7.9, 8.4, 8.9]), Trajectory = new FixedPlace(new Place(0, 0, 1.5) + Place.Polar(-30, 5)), LevelDecibels = 70 },
        ],
    };

    private static Finding? Find(Scene scene)
    {
        var take = SceneRenderer.Render(scene);
        var meter = new TakeMeter(scene.SampleRateHertz, SampleScale.FloatingPoint, new() { Faults = true });
        meter.Add(take.Channels[0], take.Channels[1]);
        return TakeDetectors.Find(meter.Complete()).FirstOrDefault(f => f.Kind == FindingKinds.VoiceSlate);
    }
}
