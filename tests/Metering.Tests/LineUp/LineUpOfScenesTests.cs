using Athwart.Metering.LineUp;
using Athwart.Scenes;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Rigs;
using Athwart.Scenes.Sources;
using Athwart.Scenes.Surroundings;

namespace Athwart.Metering.Tests.LineUp;

/// <summary>The line-up against a generator that knows nothing of it: claps in the open over a reflecting ground, by geometry.</summary>
public static class LineUpOfScenesTests
{
    public static TheoryData<double, int, double, double> Rigs => new()
    {
        { 0.5, 48_000, 0, 0 },
        { 0.5, 96_000, -8, 0.02 },
        { 0.5, 44_100, 6, -0.03 },
        { 0.37, 48_000, 3, 0.01 },
        { 0.65, 96_000, -3, 0 },
    };

    // The demands: gain within 0.2 dB, delay within 0.05 sample, roles and polarity right.
    [Theory]
    [MemberData(nameof(Rigs))]
    public static void ClapsOverGround_GiveRolesPolarityGainAndDelay(double omniShare, int rate, double sideGain, double forward)
    {
        var scene = Scene(omniShare, rate, sideGain, forward);
        foreach (var (swapped, inverted) in ((bool, bool)[])[(false, false), (true, false), (false, true)])
        {
            var rendered = SceneRenderer.Render(scene with { Faults = [.. inverted ? [new InvertedSide()] : (Fault[])[], .. swapped ? [new SwappedRoles()] : (Fault[])[]] });
            var result = LineUpAnalysis.Measure(rendered.Channels[0], rendered.Channels[1], rate, new() { MidPattern = omniShare });
            Assert.True(result.FirstIsMid.IsKnown, result.FirstIsMid.Doubt);
            Assert.Equal(!swapped, result.FirstIsMid.Answer);
            Assert.True(result.SideInverted.IsKnown, result.SideInverted.Doubt);
            Assert.Equal(inverted, result.SideInverted.Answer);
            Assert.Equal(sideGain, result.GainOffset.Value, 0.2);

            // Left and right arrive at both capsules at once, however far apart they are along the mid's axis.
            Assert.Equal(0, result.Delay.Value, 0.05);
        }
    }

    private static Scene Scene(double omniShare, int rate, double sideGain, double forward)
    {
        double[] azimuths = [0, 90, -90, 180];
        return new()
        {
            SampleRateHertz = rate,
            LengthSeconds = 26,
            Seed = 7,
            Reflectors = new Ground(0.3),
            Rig = new()
            {
                MidOmniShare = omniShare,
                SideForwardMetres = forward,
                Side = new() { GainDecibels = new RigChannel().GainDecibels + sideGain },
            },
            Sources =
            [
                .. azimuths.Select((a, n) => new SoundSource
                {
                    Signal = new Clap([2 + (5.0 * n), 2.6 + (5.0 * n), 3.2 + (5.0 * n)]),
                    Trajectory = new FixedPlace(Place.Polar(a, 1.8) + new Place(0, 0, 1.5)),
                    LevelDecibels = 100,
                }),
            ],
        };
    }
}
