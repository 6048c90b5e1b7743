using System.Numerics;
using Athwart.Metering.LineUp;
using Athwart.Scenes;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Metering.Tests.LineUp;

/// <summary>Line-ups of hand claps, bursts of noise, rendered by geometry: real distances, ground, spacing, microphones with noise and corners.</summary>
public class LineUpInScenesTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData(1, 48000, 0.5, 36, 0)]
    [InlineData(2, 48000, 0.5, 43, 0.03)]
    [InlineData(3, 96000, 0.37, 40, 0)]
    [InlineData(4, 44100, 0.7, 46, 0.02)]
    public void ClapsOverGround_AreMeasured(ulong seed, int rate, double pattern, double sideGain, double forward)
    {
        double[] azimuths = [0, 90, -90, 180];
        var scene = new Scene
        {
            SampleRateHertz = rate,
            LengthSeconds = 15,
            Seed = seed,
            Reflectors = new Ground(),
            Rig = new() { MidOmniShare = pattern, SideForwardMetres = forward, Side = new() { GainDecibels = sideGain } },
            Sources = [.. azimuths.Select((a, i) => new SoundSource
            {
                Signal = new Clap([1.5 + (3 * i), 2 + (3 * i), 2.5 + (3 * i)]),
                Trajectory = new FixedPlace(new Place(0, 0, 1.5) + Place.Polar(a, 2)),
                LevelDecibels = 100,
            })],
        };
        var take = SceneRenderer.Render(scene);

        var result = LineUpAnalysis.Measure(take.Channels[1], take.Channels[0], rate, new() { MidPattern = pattern });

        output.WriteLine($"{result.FirstIsMid} {result.SideInverted} gain {result.GainOffset} truth {scene.Rig.SideGainDecibels:0.00} delay {result.Delay} angle {result.SideAngle} pattern {result.MeasuredMidPattern} {string.Join("; ", result.Findings.Select(f => f.Message))}");
        Assert.True(result.FirstIsMid is { IsKnown: true, Answer: false });
        Assert.True(result.SideInverted is { IsKnown: true, Answer: false });
        Assert.Equal(scene.Rig.SideGainDecibels, result.GainOffset.Value, 0.2);
        Assert.Equal(0, result.Delay.Value, 0.05);
        Assert.Equal(90, result.SideAngle.Value, 1.0);
    }

    /// <summary>Walls a metre and a half away and more, gusts, and a person who speaks instead of clapping: within what was asked, or said to be unknown.</summary>
    [Theory]
    [InlineData("hall", 1)]
    [InlineData("small room", 1)]
    [InlineData("small room", 3)]
    [InlineData("wall", 1)]
    [InlineData("wind", 1)]
    [InlineData("wind", 2)]
    [InlineData("strong wind", 1)]
    [InlineData("strong wind", 2)]
    [InlineData("voice", 1)]
    [InlineData("voice", 2)]
    [InlineData("voice in a hall", 1)]
    public void InHardPlaces_NoNumberIsFarFromTheTruth_ThatIsClaimed(string place, ulong seed)
    {
        // Scenes take minutes to render without vectors, and the kernels have tests of their own.
        Assert.SkipUnless(Vector.IsHardwareAccelerated, "rendering a scene without vectors lasts minutes");
        var scene = Hard(place, seed);
        var take = SceneRenderer.Render(scene);

        var result = LineUpAnalysis.Measure(take.Channels[0], take.Channels[1], scene.SampleRateHertz, new() { MidPattern = 0.5 });

        output.WriteLine($"{result.FirstIsMid} {result.SideInverted} gain {result.GainOffset} truth {scene.Rig.SideGainDecibels:0.00} delay {result.Delay} {string.Join("; ", result.Findings.Select(f => f.Message))}");
        Assert.True(!result.FirstIsMid.IsKnown || result.FirstIsMid.Answer);
        Assert.True(!result.SideInverted.IsKnown || !result.SideInverted.Answer);
        if (result.GainOffset.IsKnown)
            Assert.Equal(scene.Rig.SideGainDecibels, result.GainOffset.Value, Math.Max(0.2, 1.5 * result.GainOffset.Uncertainty));
        if (result.Delay.IsKnown)
            Assert.Equal(0, result.Delay.Value, Math.Max(0.05, 1.5 * result.Delay.Uncertainty));
        Assert.DoesNotContain(result.Findings, f => f.Kind is LineUpKinds.MidBackwards or LineUpKinds.SideInverted);
        Assert.Equal(place != "strong wind", result is { FirstIsMid.IsKnown: true, SideInverted.IsKnown: true, GainOffset.IsKnown: true });
    }

    private static Scene Hard(string place, ulong seed)
    {
        double[] azimuths = [0, 90, -90, 180];
        var voice = place.StartsWith("voice", StringComparison.Ordinal);
        return new()
        {
            LengthSeconds = 13,
            Seed = seed,
            Reflectors = place switch
            {
                "hall" or "voice in a hall" => new BoxRoom(new(-6, -4.5, 0), new(8, 5.5, 4.5), [0.4, 0.4, 0.4, 0.4, 0.2, 0.3], 1),
                "small room" => new BoxRoom(new(-2.6, -2.9, 0), new(3.1, 2.4, 2.6), [0.5, 0.5, 0.5, 0.5, 0.3, 0.4], 2),
                "wall" => new BoxRoom(new(-40, -4, 0), new(40, 40, 30), [1, 1, 0.05, 1, 0.2, 1], 1),
                _ => new Ground(),
            },
            Rig = new() { MidOmniShare = 0.5, Mid = new() { GainDecibels = 30 }, Side = new() { GainDecibels = 27 + (2 * seed) } },
            Sources = [.. azimuths.Select((a, i) => new SoundSource
            {
                Signal = voice ? new Voice(1.5 + (3 * i), 2.8 + (3 * i), 130) : new Clap([1.5 + (3 * i), 2 + (3 * i), 2.5 + (3 * i)]),
                Trajectory = new FixedPlace(new Place(0, 0, 1.5) + Place.Polar(a, 2)),
                LevelDecibels = voice ? 75 : 95,
            })],
            Faults = place switch
            {
                "wind" => [new Wind(80)],
                "strong wind" => [new Wind(100)],
                _ => [],
            },
        };
    }
}
