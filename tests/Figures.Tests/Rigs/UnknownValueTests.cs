using Athwart.Figures.Rigs;

namespace Athwart.Figures.Tests.Rigs;

public sealed class UnknownValueTests
{
    public static TheoryData<double> Odd => [double.NaN, double.PositiveInfinity, double.NegativeInfinity, 0, -1, 1e300, -1e300, double.Epsilon];

    [Fact]
    public void CoverageNeverReached_IsSaid()
    {
        Assert.Contains("coverage never reached: nothing gets fully to one side", SvgReading.Words(CoverageWedgeFigure.Draw(RigSamples.Label, null, RigSamples.Boat)), StringComparer.Ordinal);
        Assert.Contains("coverage never reached", SvgReading.Words(LevelDifferenceFigure.Draw(RigSamples.Label, a => RigSamples.Difference(0.5, -20, a), 15, null)), StringComparer.Ordinal);
        var never = SvgReading.Words(SideLevelFigure.Draw(RigSamples.Label, _ => null, _ => null, _ => null, 0));
        Assert.Contains("15 dB is never reached", never, StringComparer.Ordinal);
        Assert.Contains("18 dB is never reached", never, StringComparer.Ordinal);
        Assert.Contains("correlation not known", never, StringComparer.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(0)]
    [InlineData(-40)]
    [InlineData(361)]
    public void CoverageThatCannotBe_IsNotKnownAndDrawsNoWedge(double coverage)
    {
        var svg = CoverageWedgeFigure.Draw(RigSamples.Label, coverage, null);
        Assert.Contains("coverage not known", SvgReading.Words(svg), StringComparer.Ordinal);
        Assert.DoesNotContain("class=\"wedge\"", svg, StringComparison.Ordinal);
    }

    [Fact]
    public void NoiseNotKnownAndNoNoise_AreSaidApart()
    {
        NoiseBar[] bars = [new("a", null, "mid"), new("b", double.NegativeInfinity, "mid"), new("c", double.NaN, "mid"), new("d", double.PositiveInfinity, "mid"), new("e", 12.34, "mid")];
        var words = SvgReading.Words(NoiseBudgetFigure.Draw(RigSamples.Label, bars, null));
        Assert.Equal(3, words.Count(w => w == "not known"));
        Assert.Single(words, w => w == "none");
        Assert.Single(words, w => w == "12.3");
    }

    [Fact]
    public void GainsOfWhichNothingIsKnown_SaySoForEachRung()
    {
        var words = SvgReading.Words(GainLadderFigure.Draw(RigSamples.Label, [new("Mid", "not known", "mid", null, double.NaN, double.NegativeInfinity, null)]));
        Assert.Contains("gain not known", words, StringComparer.Ordinal);
        string[] rungs = ["microphone's maximum not known", "loudest peak not known", "quietest sound not known", "noise not known"];
        Assert.All(rungs, r => Assert.Contains(r, words, StringComparer.Ordinal));
    }

    [Fact]
    public void ChosenSideLevelOutsideThePicture_IsNotDrawn()
    {
        foreach (var chosen in (double[])[double.NaN, double.NegativeInfinity, double.PositiveInfinity, 12.1])
            Assert.DoesNotContain("coverage-edge", SvgReadingOf(chosen), StringComparison.Ordinal);
        Assert.Contains("coverage-edge", SvgReadingOf(12), StringComparison.Ordinal);

        static string SvgReadingOf(double chosen) => SideLevelFigure.Draw(RigSamples.Label, l => RigSamples.Coverage(l, 15), _ => null, RigSamples.Correlation, chosen);
    }

    [Theory]
    [MemberData(nameof(Odd))]
    public void OddNumbers_NeverReachTheSvg(double odd)
    {
        string[] pictures =
        [
            CoverageWedgeFigure.Draw(RigSamples.Label, odd, RigSamples.Boat),
            CoverageWedgeFigure.Draw(RigSamples.Label, 90, new(2, -2, odd, false, true)),
            PolarFigure.Draw(RigSamples.Label, [new("a", "mid", _ => odd), new("b", "side", a => a > 10 ? odd : 1)]),
            LevelDifferenceFigure.Draw(RigSamples.Label, a => a > 10 ? odd : 3, 15, odd),
            LevelDifferenceFigure.Draw(RigSamples.Label, _ => odd, odd, 90),
            SideLevelFigure.Draw(RigSamples.Label, _ => odd, _ => odd, _ => odd, odd),
            NoiseBudgetFigure.Draw(RigSamples.Label, [new("a", odd, "mid"), new("b", 12, "side")], odd),
            TradeOffFigure.Draw(RigSamples.Label, [new(1, Math.Clamp(odd, 0, 1e6), 12, true), new(2, 5, Math.Clamp(odd, -100, 200), false)], ""),
        ];
        Assert.All(pictures, p => Assert.Empty(SvgReading.Faults(p)));
    }

    [Theory]
    [MemberData(nameof(Odd))]
    public void OddLevelsInOneRung_NeverReachTheSvg(double odd)
    {
        string[] pictures =
        [
            GainLadderFigure.Draw(RigSamples.Label, [new("a", "1 dB", "mid", odd, -60, -12, 3)]),
            GainLadderFigure.Draw(RigSamples.Label, [new("a", "1 dB", "mid", -90, -60, odd, odd), new("b", "1 dB", "side", odd, odd, odd, odd)]),
        ];
        Assert.All(pictures, p => Assert.Empty(SvgReading.Faults(p)));
    }

    [Theory]
    [InlineData(double.NaN, 1, 2)]
    [InlineData(1, double.PositiveInfinity, 2)]
    [InlineData(1, -1, double.NegativeInfinity)]
    public void SubjectOfUnknownSize_IsSaidAndNotDrawn(double left, double right, double distance)
    {
        var svg = CoverageWedgeFigure.Draw(RigSamples.Label, 90, new(left, right, distance, true, true));
        Assert.Empty(SvgReading.Faults(svg));
        Assert.Contains("subject not known", SvgReading.Words(svg), StringComparer.Ordinal);
        Assert.DoesNotContain("class=\"path\"", svg, StringComparison.Ordinal);
    }

    [Fact]
    public void EmptyInput_DrawsAnEmptyFrame()
    {
        string[] pictures =
        [
            CoverageWedgeFigure.Draw(RigSamples.Label, null, null),
            PolarFigure.Draw(RigSamples.Label, []),
            LevelDifferenceFigure.Draw(RigSamples.Label, _ => null, 15, null),
            SideLevelFigure.Draw(RigSamples.Label, _ => null, _ => null, _ => null, double.NaN),
            NoiseBudgetFigure.Draw(RigSamples.Label, [], null),
            GainLadderFigure.Draw(RigSamples.Label, []),
            TradeOffFigure.Draw(RigSamples.Label, [], "EUR"),
            TradeOffFigure.Draw(RigSamples.Label, [new(1, double.NaN, 12, true), new(2, 5, double.NegativeInfinity, true)], "EUR"),
        ];
        Assert.All(pictures, p => Assert.Empty(SvgReading.Faults(p)));
        Assert.All(pictures, p => Assert.DoesNotContain("class=\"curve", WithoutLegend(p), StringComparison.Ordinal));
        Assert.All(pictures.TakeLast(2), p => Assert.Equal("no pair whose cost and noise are both known", Assert.Single(SvgReading.Words(p))));
    }

    [Fact]
    public void Names_AreEscapedAndCutToTheirRoom()
    {
        const string Name = "</text><script>alert(\"1\")</script> & a name far too long for any picture of a rig";
        string[] pictures =
        [
            PolarFigure.Draw(RigSamples.Label, [new(Name, "mid", _ => 1), new(Name, "side", _ => 1)]),
            NoiseBudgetFigure.Draw(RigSamples.Label, [new(Name, 12, "mid")], 20),
            GainLadderFigure.Draw(RigSamples.Label, [new(Name, Name, "mid", -90, -60, -12, 3), new(Name, Name, "side", -90, -60, -12, 3)]),
            TradeOffFigure.Draw(RigSamples.Label, RigSamples.Pairs, Name),
        ];
        Assert.All(pictures, p => Assert.Empty(SvgReading.Faults(p)));
        Assert.All(pictures, p => Assert.DoesNotContain("<script", p, StringComparison.Ordinal));
        Assert.All(pictures, p => Assert.Contains(SvgReading.Words(p), w => w.Contains("</text><script>", StringComparison.Ordinal)));
    }

    /// <summary>Samples of the legend are lines; what was drawn from values is a path.</summary>
    private static string WithoutLegend(string svg) => svg.Replace("<line class=\"curve", "<line class=\"", StringComparison.Ordinal);
}
