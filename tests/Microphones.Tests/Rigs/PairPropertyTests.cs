using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class PairPropertyTests
{
    private static readonly Gen<FirstOrderPattern> Mids = Gen.Double[0, 1].Select(share => new FirstOrderPattern(share));
    private static readonly Gen<Decibels> Levels = Gen.Double[-30, 30].Select(level => new Decibels(level));
    private static readonly Gen<Degrees> Azimuths = Gen.Double[-180, 180].Select(azimuth => new Degrees(azimuth));

    // Common practice: the mono sum of any decode is the mid alone.
    [Fact]
    public static void TheMonoSum_IsTheMidAlone()
        => Gen.Select(Mids, Levels, Azimuths).Sample((mid, level, azimuth) =>
        {
            var pair = MidSidePair.WithFigureEight(mid, level);
            var sum = (pair.LeftGain(azimuth, Near.OneKilohertz) + pair.RightGain(azimuth, Near.OneKilohertz)) / 2;
            Assert.Equal(mid.Gain(azimuth.Radians), sum, 1e-12);
        });

    // A crossed pair of figure-8s loses a source at the side in mono while both hear it: its mid is deaf there.
    [Fact]
    public static void AnyMidSidePair_LosesInMonoOnlyWhatTheMidDoesNotHear()
    {
        var pair = MidSidePair.WithFigureEight(FirstOrderPattern.FigureEight, Decibels.Unity);
        var side = new Degrees(90);

        Assert.Equal(1, Math.Abs(pair.LeftGain(side, Near.OneKilohertz)), 1e-12);
        Assert.Equal(0, pair.LeftGain(side, Near.OneKilohertz) + pair.RightGain(side, Near.OneKilohertz), 1e-12);
    }

    [Fact]
    public static void TheMirroredSource_SwapsLeftAndRight()
        => Gen.Select(Mids, Levels, Azimuths).Sample((mid, level, azimuth) =>
        {
            var pair = MidSidePair.WithFigureEight(mid, level);
            Assert.Equal(pair.LeftGain(azimuth, Near.OneKilohertz), pair.RightGain(new(-azimuth.Value), Near.OneKilohertz), 1e-12);
        });

    [Fact]
    public static void TheSideInverted_SwapsLeftAndRight()
        => Gen.Select(Mids, Levels, Azimuths).Sample((mid, level, azimuth) =>
        {
            var pair = MidSidePair.WithFigureEight(mid, level);
            var inverted = pair with { Side = new Inverted() };
            Assert.Equal(pair.LeftGain(azimuth, Near.OneKilohertz), inverted.RightGain(azimuth, Near.OneKilohertz), 1e-12);
        });

    // Common practice: more side is wider; the same source lands farther out, so the coverage is narrower.
    [Fact]
    public static void MoreSide_IsWider()
        => Gen.Select(Mids, Levels, Gen.Double[0.1, 10]).Sample((mid, level, more) =>
        {
            var (less, wider) = (MidSidePair.WithFigureEight(mid, level), MidSidePair.WithFigureEight(mid, level + new Decibels(more)));
            var (before, after) = (DiffuseField.Of(less, Near.OneKilohertz), DiffuseField.Of(wider, Near.OneKilohertz));
            Assert.True(after.Correlation < before.Correlation);
            Assert.True(VirtualPair.Of(wider, Near.OneKilohertz).IncludedAngle.Value >= VirtualPair.Of(less, Near.OneKilohertz).IncludedAngle.Value - 1e-9);
            if (Coverage.Of(less, Coverage.FullSide, Near.OneKilohertz) is { } coverage)
                Assert.True(Coverage.Of(wider, Coverage.FullSide, Near.OneKilohertz) < coverage);
        });

    // Common practice: mid with no side is mono.
    [Fact]
    public static void NoSide_IsMono()
        => Mids.Sample(mid =>
        {
            var pair = MidSidePair.WithFigureEight(mid, Decibels.Silence);
            Assert.Equal(1, DiffuseField.Of(pair, Near.OneKilohertz).Correlation!.Value, 1e-12);
            Assert.Null(Coverage.Of(pair, Coverage.FullSide, Near.OneKilohertz));
            Assert.Equal(0, VirtualPair.Of(pair, Near.OneKilohertz).IncludedAngle.Value, 1e-12);
            Assert.Equal(0, pair.LevelDifference(new(30), Near.OneKilohertz)!.Value.Value, 1e-12);
        });

    [Fact]
    public static void TheVirtualPair_HearsEveryAzimuthAsTheDecodeDoes()
        => Gen.Select(Mids, Levels, Azimuths).Sample((mid, level, azimuth) =>
        {
            var pair = MidSidePair.WithFigureEight(mid, level);
            var crossed = VirtualPair.Of(pair, Near.OneKilohertz);
            var half = crossed.IncludedAngle.Radians / 2;
            Assert.Equal(pair.LeftGain(azimuth, Near.OneKilohertz), crossed.OnAxisGain.AmplitudeRatio * crossed.Pattern.Gain(azimuth.Radians - half), 1e-9);
        });

    [Fact]
    public static void TheMidTrim_ChangesLevelsAndNothingElse()
        => Gen.Select(Mids, Levels, Gen.Double[-20, 20]).Sample((mid, level, trim) =>
        {
            var plain = MidSidePair.WithFigureEight(mid, level);
            var trimmed = plain with { MidTrim = new(trim) };
            var (a, b) = (VirtualPair.Of(plain, Near.OneKilohertz), VirtualPair.Of(trimmed, Near.OneKilohertz));
            Assert.Equal(a.IncludedAngle.Value, b.IncludedAngle.Value, 1e-9);
            Assert.Equal(a.OmniShare, b.OmniShare, 1e-9);
            Assert.Equal(a.OnAxisGain.Value + trim, b.OnAxisGain.Value, 1e-9);
            var (before, after) = (DiffuseField.Of(plain, Near.OneKilohertz), DiffuseField.Of(trimmed, Near.OneKilohertz));
            Assert.Equal(before.Correlation!.Value, after.Correlation!.Value, 1e-9);
            Assert.Equal(before.Mid.Index.Value, after.Mid.Index.Value, 1e-9);
            Assert.Equal(before.Left.Index.Value, after.Left.Index.Value, 1e-9);
            Assert.Equal(before.RearShare, after.RearShare, 1e-9);
        });

    private sealed class Inverted : IPattern
    {
        public string Name => "figure-8, inverted";

        public double Gain(double angleRadians, double frequencyHertz) => -Math.Cos(angleRadians);
    }
}
