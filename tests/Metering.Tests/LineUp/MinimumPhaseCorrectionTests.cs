using System.Numerics;
using Athwart.Metering.LineUp;

namespace Athwart.Metering.Tests.LineUp;

public class MinimumPhaseCorrectionTests
{
    private static readonly ResponseBand[] Bands =
    [
        new(1000, Estimate.Of(0, 0.1), 0), new(1250, Estimate.Of(-2, 0.1), 2), new(1600, Estimate.Of(-4, 0.1), 4), new(2000, Estimate.Of(-4, 0.1), 4),
        new(2500, Estimate.Of(3, 0.1), -3), new(3150, Estimate.CannotTell("noise"), 0),
    ];

    [Theory]
    [InlineData(1584.893, 4)]
    [InlineData(1995.262, 4)]
    [InlineData(2511.886, -3)]
    [InlineData(200, 0)]
    [InlineData(10000, 0)]
    public void TheFilter_HasTheCorrectionOfEachBand(double hertz, double decibels)
    {
        var taps = MinimumPhaseCorrection.Design(Bands, 48000, 1024);

        var response = taps.Select((x, i) => x * Complex.FromPolarCoordinates(1, -2 * Math.PI * hertz * i / 48000)).Aggregate(Complex.Zero, (a, b) => a + b);

        Assert.Equal(decibels, 20 * Math.Log10(response.Magnitude), 0.1);
    }

    [Fact]
    public void MostOfTheEnergy_ComesAtOnce()
    {
        var taps = MinimumPhaseCorrection.Design(Bands, 48000, 1024);

        Assert.True(taps.Take(32).Sum(x => x * x) > 0.95 * taps.Sum(x => x * x));
    }

    [Fact]
    public void NothingToCorrect_IsASingleOne()
    {
        var taps = MinimumPhaseCorrection.Design([], 96000, 64);

        Assert.Equal(1, taps[0], 1e-5);
        Assert.All(taps.Skip(1), x => Assert.Equal(0, x, 1e-5));
    }
}
