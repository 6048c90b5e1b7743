using Athwart.Figures.Rigs;
using CsCheck;

namespace Athwart.Figures.Tests.Rigs;

/// <summary>No words of a picture lie on others or leave it, whatever it shows.</summary>
public sealed class LabelTests
{
    private static readonly Gen<double> Level = Gen.Double[-12, 12];
    private static readonly Gen<double> Metres = Gen.Double[-1, 3.3].Select(e => Math.Pow(10, e));
    private static readonly Gen<double?> Loudness = Gen.Frequency((6, Gen.Double[-110, 30].Select(d => (double?)d)), (1, Gen.Const((double?)null)));

    [Fact]
    public void Wedge_AnyCoverageAndSubject()
        => Gen.Select(Gen.Double[20, 350], Metres, Metres, Metres, Gen.Int[0, 3]).Sample((coverage, left, right, distance, kind)
            => Sound(CoverageWedgeFigure.Draw(RigSamples.Label, coverage, new(left, kind == 1 ? left - Math.Min(left, right) : -right, distance, kind > 1, kind == 3))));

    [Theory]
    [InlineData(118, 20, -20, 12)]
    [InlineData(90, 1000, -1000, 1)]
    [InlineData(359, 5, -5, 10)]
    [InlineData(180, 5, -5, 10)]
    [InlineData(60, 500, 400, 2)]
    [InlineData(60, -400, -500, 2)]
    [InlineData(20, 0.1, -0.1, 2000)]
    [InlineData(100, 0, 0, 0)]
    [InlineData(100, 30, 10, 12)]
    public void Wedge_Chosen(double coverage, double left, double right, double distance)
    {
        Sound(CoverageWedgeFigure.Draw(RigSamples.Label, coverage, new(left, right, distance, false, true)));
        Sound(CoverageWedgeFigure.Draw(RigSamples.Label, coverage, new(left, right, distance, true, false)));
        Sound(CoverageWedgeFigure.Draw(RigSamples.Label, null, new(left, right, distance, true, true)));
    }

    [Fact]
    public void Wedge_EverySubject_SaysItsWidthAndDistance()
        => Gen.Select(Gen.Double[20, 350], Metres, Metres).Sample((coverage, width, distance) =>
        {
            var words = SvgReading.Words(CoverageWedgeFigure.Draw(RigSamples.Label, coverage, new(width / 2, -width / 2, distance, false, true)));
            return words.Contains(FormattableString.Invariant($"{distance:0.##} m"), StringComparer.Ordinal) && words.Any(w => w.StartsWith(FormattableString.Invariant($"{width:0.##} m, "), StringComparison.Ordinal));
        });

    [Fact]
    public void Wedge_StaysInsideThePicture()
        => Gen.Select(Gen.Double[1, 360], Metres, Metres, Gen.Bool).Sample((coverage, width, distance, passes)
            => Sound(CoverageWedgeFigure.Draw(RigSamples.Label, coverage, new(width / 2, -width / 2, distance, passes, true))));

    [Fact]
    public void Polar_AnyMidAndSideLevel()
        => Gen.Select(Gen.Double[0, 1], Level).Sample((share, level) => Sound(PolarFigure.Draw(RigSamples.Label, RigSamples.Polar(share, level))), iter: 60);

    [Fact]
    public void Difference_AnyMidSideLevelThresholdAndCoverage()
        => Gen.Select(Gen.Double[0, 1], Level, Gen.Double[0, 40], Gen.Double[20, 350]).Sample((share, level, threshold, coverage)
            => Sound(LevelDifferenceFigure.Draw(RigSamples.Label, a => RigSamples.Difference(share, level, a), threshold, coverage)), iter: 60);

    [Fact]
    public void SideLevel_AnyChosenLevel()
        => Level.Sample(chosen => Sound(SideLevelFigure.Draw(RigSamples.Label, l => RigSamples.Coverage(l, 15), l => RigSamples.Coverage(l, 18), RigSamples.Correlation, chosen)), iter: 60);

    [Theory]
    [InlineData(-12)]
    [InlineData(-11.9)]
    [InlineData(12)]
    public void SideLevel_ChosenAtTheEdge(double chosen)
        => Sound(SideLevelFigure.Draw(RigSamples.Label, l => RigSamples.Coverage(l, 15), _ => null, RigSamples.Correlation, chosen));

    [Fact]
    public void Noise_AnyRows()
        => Gen.Select(Loudness.Array[0, 9], Loudness).Sample((levels, quietest)
            => Sound(NoiseBudgetFigure.Draw(RigSamples.Label, [.. levels.Select((l, n) => new NoiseBar("side microphone", l, n % 2 == 0 ? "mid" : "total"))], quietest + 60)));

    [Fact]
    public void Gains_AnyLevels()
        => Gen.Select(Loudness, Loudness, Loudness, Loudness).Array[0, 3].Sample(rows
            => Sound(GainLadderFigure.Draw(RigSamples.Label, [.. rows.Select(r => new GainColumn("Mid", "38 dB", "mid", r.Item1, r.Item2, r.Item3, r.Item4))])));

    [Fact]
    public void Gains_LevelsCloseTogether()
        => Gen.Select(Gen.Double[-110, 30], Gen.Double[0, 3].Array[4]).Sample((level, off)
            => Sound(GainLadderFigure.Draw(RigSamples.Label, [new("Mid", "38 dB", "mid", level, level + off[0], level + off[1], level + off[2]), new("Side", "0 dB", "side", level + off[3], level, null, level)])));

    [Fact]
    public void TradeOff_AnyPairs()
        => Gen.Select(Gen.Double[0, 5000], Gen.Double[-5, 40], Gen.Bool).Array[1, 60].Sample(pairs
            => Sound(TradeOffFigure.Draw(RigSamples.Label, [.. pairs.Select((p, n) => new TradeOffPoint(n * 97, p.Item1, p.Item2, p.Item3))], "EUR")));

    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    [InlineData(3)]
    public void TradeOff_PairsCloseTogether_HaveDistinctTicks(double spread)
    {
        var svg = TradeOffFigure.Draw(RigSamples.Label, [new(1, 0, 12, true), new(2, spread, 12 + (spread / 10), false)], "EUR");
        Sound(svg);
        var ticks = SvgReading.Words(svg).Where(w => double.TryParse(w, System.Globalization.CultureInfo.InvariantCulture, out _)).ToList();
        // '1' is a cost and a place.
        Assert.True(ticks.Count - ticks.Distinct(StringComparer.Ordinal).Count() <= 2, string.Join(' ', ticks));
    }

    private static void Sound(string svg) => Assert.Empty(SvgReading.Faults(svg));
}
