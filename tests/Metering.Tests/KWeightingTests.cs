using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

public class KWeightingTests
{
    [Fact]
    public void Bs1770_At48kHz_EveryPrintedDigitIsMet()
    {
        // ITU-R BS.1770-5 Annex 1, Tables 1 and 2.
        var shelf = KWeighting.Shelf(48_000);
        Assert.Equal(1.53512485958697, shelf.B0, 1e-14);
        Assert.Equal(-2.69169618940638, shelf.B1, 1e-14);
        Assert.Equal(1.19839281085285, shelf.B2, 1e-14);
        Assert.Equal(-1.69065929318241, shelf.A1, 1e-14);
        Assert.Equal(0.73248077421585, shelf.A2, 1e-14);
        var highPass = KWeighting.HighPass(48_000);
        Assert.Equal((1.0, -2.0, 1.0), (highPass.B0, highPass.B1, highPass.B2));
        Assert.Equal(-1.99004745483398, highPass.A1, 1e-14);
        Assert.Equal(0.99007225036621, highPass.A2, 1e-14);
    }

    [Theory]
    // Derived from the same constants elsewhere (docs/sources.md#k-weighting).
    [InlineData(44_100, 1.53084123005035, -2.65097999515473, 1.16907907992159, -1.66365511325602, 0.71259542807323, -1.98916967362980, 0.98919903578704)]
    [InlineData(88_200, 1.55751537557965, -2.90562707992635, 1.36133397747221, -1.83091998796233, 0.84414226108785, -1.99457751545034, 0.99458487587805)]
    [InlineData(96_000, 1.55971422897580, -2.92674157825108, 1.37826120231582, -1.84460946989011, 0.85584332293064, -1.99501754472472, 0.99502375904092)]
    [InlineData(192_000, 1.57222721509128, -3.04728305156155, 1.47797134097961, -1.92220223060749, 0.92511773511683, -1.99750722284070, 0.99750877835551)]
    public void Bs1770_AtOtherRates_TheDerivationGivesTheKnownCoefficients(int rate, double b0, double b1, double b2, double a1, double a2, double h1, double h2)
    {
        var (shelf, highPass) = (KWeighting.Shelf(rate), KWeighting.HighPass(rate));
        Assert.Equal([b0, b1, b2, a1, a2, h1, h2], [shelf.B0, shelf.B1, shelf.B2, shelf.A1, shelf.A2, highPass.A1, highPass.A2], (x, y) => Math.Abs(x - y) < 2e-14);
    }

    [Theory]
    // Combined response of the two printed stages at 48 kHz, in dB.
    [InlineData(20, -13.275)]
    [InlineData(50, -3.934)]
    [InlineData(100, -1.133)]
    [InlineData(997, 0.691)]
    [InlineData(2000, 3.071)]
    [InlineData(10_000, 4.042)]
    public void Bs1770_Response_IsThatOfThePrintedStagesAtEveryRate(double hertz, double decibels)
    {
        Assert.Equal(decibels, ResponseDecibels(hertz, 48_000), 0.001);
        // The bilinear transform bends the top of the band a little; low rates bend it most.
        foreach (var rate in (int[])[44_100, 88_200, 96_000, 176_400, 192_000, 384_000, 768_000])
            Assert.Equal(decibels, ResponseDecibels(hertz, rate), hertz < 1500 ? 0.01 : 0.05);
    }

    [Theory]
    [InlineData(44_100)]
    [InlineData(48_000)]
    [InlineData(88_200)]
    [InlineData(96_000)]
    [InlineData(192_000)]
    public void Bs1770_Calibration_FullScale997HzOnOneChannel_ReadsMinus3_01(int rate)
    {
        // BS.1770-5 Annex 1: a 0 dBFS 997 Hz sine on one of left, centre and right reads −3.01 LKFS.
        var tone = Steps(rate, 997, (10, 0));
        var nothing = new float[tone.Length];
        Assert.Equal(-3.01, Meter(tone, nothing, rate).Measure().Integrated.Value, 0.01);
        Assert.Equal(-3.01, Meter(nothing, tone, rate).Measure().Integrated.Value, 0.01);
        Assert.Equal(0.0, Meter(tone, tone, rate).Measure().Integrated.Value, 0.01);
    }

    [Theory]
    [InlineData(7_999)]
    [InlineData(768_001)]
    public void ARateOutside8To768kHz_IsRefused(int rate) => Assert.Throws<ArgumentOutOfRangeException>(() => new LoudnessMeter(rate));

    [Theory]
    [InlineData(8_000)]
    [InlineData(11_025)]
    [InlineData(768_000)]
    public void AtTheEndsOfTheRange_ATone500Hz_ReadsItsLevel(int rate) =>
        Assert.Equal(-20.65, Measure(Steps(rate, 500, (3, -20)), rate).Integrated.Value, 0.05);

    [Fact]
    public void TheScalarTwin_AgreesWithTheVectorPath()
    {
        var (first, second) = (Noise(50_000, 0.5, 1), Noise(50_000, 1e-3, 2));
        var (vector, scalar) = (new PairKWeighting(96_000) { UseVectors = true }, new PairKWeighting(96_000) { UseVectors = false });
        for (var at = 0; at < 50_000; at += 5_000)
        {
            var (v, s) = (vector.Process(first.AsSpan(at, 5_000), second.AsSpan(at, 5_000)), scalar.Process(first.AsSpan(at, 5_000), second.AsSpan(at, 5_000)));
            // Within 1e-9 dB.
            Assert.Equal(0, 10 * Math.Log10(v.First / s.First), 1e-9);
            Assert.Equal(0, 10 * Math.Log10(v.Second / s.Second), 1e-9);
        }
    }

    [Fact]
    public void AfterSoundStops_TheFilterFallsToExactSilence()
    {
        var filter = new PairKWeighting(48_000);
        filter.Process(Noise(480, 1, 3), new float[480]);
        (double First, double Second) last = default;
        for (var i = 0; i < 1000; i++)
            last = filter.Process(new float[480], new float[480]);
        Assert.Equal((0.0, 0.0), last);
    }

    private static double ResponseDecibels(double hertz, int rate) =>
        20 * Math.Log10(KWeighting.Shelf(rate).AmplitudeRatioAt(hertz, rate) * KWeighting.HighPass(rate).AmplitudeRatioAt(hertz, rate));
}
