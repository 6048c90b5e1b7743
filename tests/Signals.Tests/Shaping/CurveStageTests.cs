using System.Numerics;
using Athwart.Signals.Convolution;
using Athwart.Signals.Filters;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public sealed class CurveStageTests
{
    private const int Rate = 48000;

    private static readonly CurvePoint[] Points = [new(80, 4), new(300, 0), new(2000, -3), new(9000, 5)];

    private static readonly CurvePoint[] Bands = [new(500, 3), new(630, 4), new(800, 2), new(1000, -1), new(4000, -6), new(5000, 12)];

    public static TheoryData<FilterPhase> Phases => [FilterPhase.Minimum, FilterPhase.Linear];

    [Theory]
    [InlineData(1), InlineData(700), InlineData(5000), InlineData(9000)]
    public void LongFilter_OfAnyLength_AgreesWithTheDefinition(int length)
    {
        var (taps, signal) = StageProof.Noise(Math.Max(length, 12_000), 6);
        taps = taps[..length];
        signal = signal[..12_000];
        var filter = new LongFilter(taps);
        var output = new double[signal.Length + filter.LatencyFrames];
        signal.CopyTo(output, 0);
        filter.Begin(-5);
        filter.Process(output);
        for (var n = 0; n < signal.Length; n += 97)
        {
            var sum = 0.0;
            for (var k = 0; k < Math.Min(length, n + 1); k++)
                sum += taps[k] * signal[n - k];
            Assert.Equal(sum, output[n + filter.LatencyFrames], 1e-11);
        }
    }

    [Fact]
    public void LongFilter_WithAndWithoutVectors_GivesTheSameBits()
    {
        var (taps, signal) = StageProof.Noise(6000, 7);
        var plain = (double[])signal.Clone();
        new LongFilter(taps.AsSpan(0, 500)).Process(signal);
        new LongFilter(taps.AsSpan(0, 500)) { UseVectors = false }.Process(plain);
        StageProof.SameBits(plain, signal);
    }

    [Theory]
    [MemberData(nameof(Phases))]
    public void WidthCurve_Measured_GoesThroughItsPointsAndNeverPastThem(FilterPhase phase)
    {
        var settings = new WidthCurve(Points, phase);
        var stage = new WidthCurveStage(settings, Rate);
        var side = Response(stage).Side;
        foreach (var point in Points)
            Assert.Equal(point.Decibels, Spectrum.Decibels(side, point.Hertz, Rate), 0.02);
        for (var hertz = 30.0; hertz < 23_000; hertz *= 1.07)
        {
            Assert.Equal(settings.DecibelsAt(hertz), Spectrum.Decibels(side, hertz, Rate), 0.02);
            Assert.InRange(settings.DecibelsAt(hertz), -3, 5);
        }
    }

    [Fact]
    public void LinearPhase_AfterItsLatency_TurnsNoPhase()
    {
        var stage = new WidthCurveStage(new(Points, FilterPhase.Linear), Rate);
        double[] mid = new double[40_000], side = new double[40_000];
        mid[20_000] = side[20_000] = 1;
        var done = StageProof.Run(stage, mid, side);
        for (var n = 1; n < 15_000; n++)
            Assert.Equal(done.Side[20_000 - n], done.Side[20_000 + n], 1e-15);
        Assert.Equal(1, done.Mid[20_000]);
    }

    // The analogue bell is of minimum phase: its amplitude alone has to give back its phase.
    [Fact]
    public void MinimumPhase_FromABellsAmplitude_HasTheBellsPhase()
    {
        var bell = AnalogueSection.Bell(1000, 9, 1.5);
        var taps = CurveFilter.Design(hertz => 20 * Math.Log10(bell.AmplitudeRatioAt(hertz)), 192_000, FilterPhase.Minimum);
        foreach (var hertz in new[] { 100.0, 500, 800, 1000, 1300, 2000, 5000 })
        {
            var s = new Complex(0, hertz / 1000);
            var expected = ((bell.B2 * s * s) + (bell.B1 * s) + bell.B0) / ((bell.A2 * s * s) + (bell.A1 * s) + bell.A0);
            var measured = Spectrum.At(taps, hertz, 192_000);
            Assert.Equal(0, (measured / expected).Phase, 2e-3);
            Assert.Equal(0, 20 * Math.Log10((measured / expected).Magnitude), 0.02);
        }
    }

    [Theory]
    [MemberData(nameof(Phases))]
    public void ResponseMatch_Measured_CorrectsKnownBandsAndNothingElse(FilterPhase phase)
    {
        var side = Response(new ResponseMatchStage(new(PairRoles.Side, Bands, phase), Rate)).Side;
        foreach (var band in Bands)
            Assert.Equal(band.Decibels, Spectrum.Decibels(side, Exact(band.Hertz), Rate), 0.35);
        foreach (var unknown in new[] { 50.0, 100, 250, 1585, 2000, 10_000, 16_000 })
            Assert.Equal(0, Spectrum.Decibels(side, unknown, Rate), 0.1);
    }

    [Fact]
    public void ResponseMatch_AsACurve_IsTheCorrectionAtTheBandsAndHalfwayBetween()
    {
        var settings = new ResponseMatch(PairRoles.Side, Bands);
        foreach (var band in Bands)
            Assert.Equal(band.Decibels, settings.DecibelsAt(Exact(band.Hertz)), 1e-9);
        Assert.Equal(3.5, settings.DecibelsAt(Exact(500) * Math.Pow(10, 0.05)), 1e-9);
        Assert.Equal(6, settings.DecibelsAt(Exact(5000) * Math.Pow(10, 0.05)), 1e-9);
        Assert.Equal(0, settings.DecibelsAt(0));
    }

    [Theory]
    [MemberData(nameof(Phases))]
    public void MonoBelow_Measured_TakesTheLowEndOfTheSideAlone(FilterPhase phase)
    {
        var stage = new MonoBelowStage(new(200, 24, phase), Rate);
        var side = Response(stage).Side;
        Assert.Equal(-3.0103, Spectrum.Decibels(side, 200, Rate), 0.05);
        Assert.Equal(0, Spectrum.Decibels(side, 1500, Rate), 0.01);
        Assert.InRange(Spectrum.Decibels(side, 50, Rate), -200, -46);
        StageProof.LeavesTheOtherRole(new MonoBelowStage(new(200, 24, phase), Rate), PairRoles.Side);
    }

    [Theory]
    [InlineData(0.6), InlineData(1.0), InlineData(1.5)]
    public void WidthMatrix_FarBelowTheCorner_IsThePublishedOne(double width)
    {
        // Published (see docs/sources.md#shuffling): side w/2 and mid 1 − w/2 between sum and difference; twice that over our matrix.
        var settings = new Shuffler(600, 20 * Math.Log10(width / (2 - width)), ShufflerLaw.WidthMatrix, FilterPhase.Minimum);
        Assert.Equal(width, settings.LowSideRatio, 1e-12);
        var (mid, side) = Response(new ShufflerStage(settings, Rate));
        Assert.Equal(width, Spectrum.Ratio(side, 1, Rate), 1e-4);
        Assert.Equal(2 - width, Spectrum.Ratio(mid, 1, Rate), 1e-4);
    }

    [Fact]
    public void WidthMatrix_AtEveryFrequency_KeepsTheSumOfMidAndSideGain()
    {
        var (mid, side) = Response(new ShufflerStage(new(700, 6, ShufflerLaw.WidthMatrix, FilterPhase.Minimum), Rate));
        for (var hertz = 20.0; hertz < 24_000; hertz *= 1.3)
        {
            var sum = Spectrum.At(mid.AsSpan(12_000), hertz, Rate) + Spectrum.At(side.AsSpan(12_000), hertz, Rate);
            Assert.Equal(0, (sum - 2).Magnitude, 1e-12);
        }
    }

    [Theory]
    [InlineData(FilterPhase.Minimum, ShufflerLaw.WidthMatrix), InlineData(FilterPhase.Linear, ShufflerLaw.WidthMatrix)]
    [InlineData(FilterPhase.Minimum, ShufflerLaw.SideOnly), InlineData(FilterPhase.Linear, ShufflerLaw.SideOnly)]
    public void Shuffler_Measured_FollowsItsCurves(FilterPhase phase, ShufflerLaw law)
    {
        var settings = new Shuffler(600, 6, law, phase);
        var (mid, side) = Response(new ShufflerStage(settings, Rate));
        for (var hertz = 20.0; hertz < 20_000; hertz *= 1.4)
        {
            Assert.Equal(settings.SideDecibelsAt(hertz), Spectrum.Decibels(side, hertz, Rate), 0.02);
            Assert.Equal(settings.MidDecibelsAt(hertz), Spectrum.Decibels(mid, hertz, Rate), 0.02);
        }

        Assert.Equal(6, settings.SideDecibelsAt(1) - settings.MidDecibelsAt(1), 0.01);
        if (law == ShufflerLaw.SideOnly)
            StageProof.LeavesTheOtherRole(new ShufflerStage(settings, Rate), PairRoles.Side);
    }

    [Theory]
    [MemberData(nameof(Phases))]
    public void CurveStages_HoweverCutIntoBlocks_GiveTheSameBits(FilterPhase phase)
    {
        StageProof.SplitsDoNotMatter(() => new WidthCurveStage(new(Points, phase), Rate), 5000, 12345);
        StageProof.SplitsDoNotMatter(() => new ShufflerStage(new(600, 6, ShufflerLaw.WidthMatrix, phase), Rate));
        StageProof.LeavesTheOtherRole(new WidthCurveStage(new(Points, phase), Rate), PairRoles.Side);
        StageProof.LeavesTheOtherRole(new ResponseMatchStage(new(PairRoles.Mid, Bands, phase), Rate), PairRoles.Mid);
        StageProof.BeginForgets(new WidthCurveStage(new(Points, phase), Rate), 20_000);
        StageProof.SettlingIsEnough(() => new WidthCurveStage(new(Points, phase), Rate), 20_000);
        StageProof.SettlingIsEnough(() => new ShufflerStage(new(600, 6, ShufflerLaw.WidthMatrix, phase), Rate), 20_000);
    }

    [Fact]
    public void Join_TakesComposedStepsApart() =>
        Assert.Single(SectionStage.Join([new LowCutStage(new(PairRoles.Mid, 80, 12), Rate), new ShufflerStage(new(600, 6, ShufflerLaw.WidthMatrix, FilterPhase.Minimum), Rate), new MonoBelowStage(new(60, 12, FilterPhase.Minimum), Rate)]));

    [Fact]
    public void Settings_ThatCannotBe_AreRefusedWithTheReason()
    {
        Assert.Throws<ArgumentException>(() => new WidthCurve([], FilterPhase.Linear));
        Assert.Contains("rise", Assert.Throws<ArgumentException>(() => new WidthCurve([new(200, 0), new(100, 0)], FilterPhase.Linear)).Message, StringComparison.Ordinal);
        Assert.Contains("points[0].Decibels", Assert.Throws<ArgumentOutOfRangeException>(() => new WidthCurve([new(200, 25)], FilterPhase.Linear)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new ResponseMatch(PairRoles.Side, [new(1000, 12.5)]));
        Assert.Contains("third octave", Assert.Throws<ArgumentException>(() => new ResponseMatch(PairRoles.Side, [new(1120, 3)])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Shuffler(600, 13, ShufflerLaw.SideOnly, FilterPhase.Linear));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Shuffler(600, 3, (ShufflerLaw)9, FilterPhase.Linear));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MonoBelow(10, 12, FilterPhase.Linear));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MonoBelow(100, 12, (FilterPhase)2));
        Assert.Equal(new WidthCurve(Points, FilterPhase.Linear), new WidthCurve([.. Points], FilterPhase.Linear));
    }

    private static double Exact(double nominal) => 1000 * Math.Pow(10, Math.Round(10 * Math.Log10(nominal / 1000)) / 10);

    private static (double[] Mid, double[] Side) Response(IPairStage stage)
    {
        double[] mid = new double[40_000], side = new double[40_000];
        mid[12_000] = side[12_000] = 1;
        return StageProof.Run(stage, mid, side);
    }
}
