using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Surroundings;
using Athwart.Scenes.Tests.Support;

namespace Athwart.Scenes.Tests;

public sealed class DiffuseFieldTests
{
    private static readonly DiffuseField White = new() { LevelDecibels = 80, LowHertz = 200, HighHertz = 12000, PowerExponent = 0 };

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void Directions_HaveTheMomentsOfTheSphere(int icosahedra)
    {
        var directions = (White with { Icosahedra = icosahedra }).Directions(new(7));

        Assert.Equal(12 * icosahedra, directions.Count);
        Assert.All(directions, direction => Assert.Equal(1, direction.Length, 1e-12));
        Assert.Equal(0, directions.Average(d => d.X), 1e-12);
        Assert.Equal(1.0 / 3, directions.Average(d => d.X * d.X), 1e-12);
        Assert.Equal(1.0 / 3, directions.Average(d => d.Y * d.Y), 1e-12);
        Assert.Equal(0, directions.Average(d => d.X * d.Y), 1e-12);
        Assert.Equal(1.0 / 5, directions.Average(d => d.Z * d.Z * d.Z * d.Z), 1e-12);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.25)]
    [InlineData(1)]
    public void Powers_AreThoseOfTheIntegral_AndMidAndSideAreUncorrelated(double omniShare)
    {
        // A² + B²/3 and 1/3 of the pressure power. 11.8 kHz of band over 10 s are 236,000 free values a wave: 12 equal waves give a
        // standard error of about 0.02 dB; five of them are allowed.
        var take = SceneRenderer.Render(new()
        {
            Rig = QuietRig.Rig with { MidOmniShare = omniShare },
            Ambience = [White],
        });
        var pressure = Math.Pow(Levels.Pascal(80) * 0.4, 2);
        var b = 1 - omniShare;

        Assert.Equal(Measure.PowerDecibels((omniShare * omniShare) + (b * b / 3)), Measure.PowerDecibels(Measure.Power(take[ChannelRole.Mid]) / pressure), 0.1);
        Assert.Equal(Measure.PowerDecibels(1.0 / 3), Measure.PowerDecibels(Measure.Power(take[ChannelRole.Side]) / pressure), 0.1);
        Assert.Equal(0, Measure.Correlation(take[ChannelRole.Mid], take[ChannelRole.Side]), 0.012);
    }
}
