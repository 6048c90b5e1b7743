using Athwart.Metering.LineUp;
using Athwart.Scenes;
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
}
