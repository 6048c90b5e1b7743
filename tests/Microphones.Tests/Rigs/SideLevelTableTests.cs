using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Tests.Rigs;

public static class SideLevelTableTests
{
    // All six printed tables of mid pattern by side level: derived there by another program, here from the closed forms.
    [Theory]
    [MemberData(nameof(PrintedTables.SideLevels), MemberType = typeof(PrintedTables))]
    public static void EveryRow_IsReproducedToItsPrintedDigits(
        string mid, double level, double gain, double angle, double share, double? silent, double onAxis, double? at15, double? at18, double correlation)
    {
        var pair = MidSidePair.WithFigureEight(Near.Pattern(mid), new(level));
        var crossed = VirtualPair.Of(pair, Near.OneKilohertz);

        Near.Printed(gain, pair.SideLevel.AmplitudeRatio, 0.00005);
        Near.Printed(angle, crossed.IncludedAngle.Value, 0.005);
        Near.Printed(share, crossed.OmniShare, 0.00005);
        Near.Printed(silent, crossed.Null?.Value, 0.005);
        Near.Printed(onAxis, crossed.OnAxisGain.Value, 0.005);
        Near.Printed(at15, Coverage.Of(pair, Coverage.FullSide, Near.OneKilohertz)?.Value, 0.05);
        Near.Printed(at18, Coverage.Of(pair, Coverage.FullSideWide, Near.OneKilohertz)?.Value, 0.05);
        Near.Printed(correlation, DiffuseField.Of(pair, Near.OneKilohertz).Correlation, 0.00005);
    }

    // The printed table of crossed pairs as mid and side: derived.
    [Theory]
    [MemberData(nameof(PrintedTables.CrossedPairs), MemberType = typeof(PrintedTables))]
    public static void EveryCrossedPair_IsReproducedAsMidAndSide(
        string name, double angle, double midShare, double level, double at15, double at18, double correlation)
    {
        var crossed = RigSettings.FromCrossedPair(Near.Pattern(name), new(angle))!;
        var pair = MidSidePair.WithFigureEight(crossed.Mid, crossed.SideLevel);

        Near.Printed(midShare, crossed.Mid.OmniShare, 0.00005);
        Near.Printed(level, crossed.SideLevel.Value, 0.005);
        Near.Printed(at15, Coverage.Of(pair, Coverage.FullSide, Near.OneKilohertz)?.Value, 0.05);
        Near.Printed(at18, Coverage.Of(pair, Coverage.FullSideWide, Near.OneKilohertz)?.Value, 0.05);
        Near.Printed(correlation, DiffuseField.Of(pair, Near.OneKilohertz).Correlation, 0.00005);
        Near.Printed(angle, VirtualPair.Of(pair, Near.OneKilohertz).IncludedAngle.Value, 1e-9);
        Near.Printed(Near.Pattern(name).OmniShare, VirtualPair.Of(pair, Near.OneKilohertz).OmniShare, 1e-9);
    }

    [Theory]
    [MemberData(nameof(PrintedTables.CrossedPairs), MemberType = typeof(PrintedTables))]
    public static void ACrossedPair_HearsEveryAzimuthAsItsMidAndSideDo(
        string name, double angle, double midShare, double level, double at15, double at18, double correlation)
    {
        _ = (midShare, level, at15, at18, correlation);
        var pattern = Near.Pattern(name);
        var crossed = RigSettings.FromCrossedPair(pattern, new(angle))!;
        var pair = MidSidePair.WithFigureEight(crossed.Mid, crossed.SideLevel) with { MidTrim = crossed.MidTrim };

        for (var azimuth = -180; azimuth <= 180; azimuth += 5)
        {
            var theta = new Degrees(azimuth);
            Assert.Equal(pattern.Gain(theta.Radians - new Degrees(angle / 2).Radians), pair.LeftGain(theta, Near.OneKilohertz), 1e-12);
            Assert.Equal(pattern.Gain(theta.Radians + new Degrees(angle / 2).Radians), pair.RightGain(theta, Near.OneKilohertz), 1e-12);
        }
    }
}
