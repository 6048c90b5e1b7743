using Athwart.Microphones.Patterns;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Patterns;

public static class PatternFiguresTests
{
    private const double MinusInfinity = double.NegativeInfinity;
    private static readonly Hertz OneKilohertz = new(1000);

    /// <summary>Share, arcs at −3 and −6 dB, null, 90° and 180° dB, efficiency, DI dB, distance factor, front to back dB: derived, as printed.</summary>
    public static TheoryData<double, double?, double?, double?, double, double, double, double, double, double> Printed { get; } = new()
    {
        { 1, null, null, null, 0, 0, 1.0000, 0.00, 1.000, 0.00 },
        { 0.7, 177.29, 263.62, null, -3.10, -7.96, 0.5200, 2.84, 1.387, 3.72 },
        { 0.5, 131.06, 180.00, 180, -6.02, MinusInfinity, 0.3333, 4.77, 1.732, 8.45 },
        { (1.7320508075688772 - 1) / 2, 114.90, 155.60, 125.26, -8.73, -11.44, 0.2679, 5.72, 1.932, 11.44 },
        { 0.37, 115.30, 156.18, 125.97, -8.64, -11.70, 0.2692, 5.70, 1.927, 11.43 },
        { 0.375, 115.80, 156.93, 126.87, -8.52, -12.04, 0.2708, 5.67, 1.922, 11.42 },
        { 0.25, 104.90, 141.06, 109.47, -12.04, -6.02, 0.2500, 6.02, 2.000, 8.45 },
        { 0, 90.00, 120.00, 90, MinusInfinity, 0, 0.3333, 4.77, 1.732, 0.00 },
    };

    [Theory]
    [MemberData(nameof(Printed))]
    public static void TheFirstOrderTable_IsReproducedToItsPrintedDigits(
        double share, double? arc3, double? arc6, double? silent, double at90, double at180, double power, double index, double factor, double frontToBack)
    {
        var figures = PatternFigures.Of(new FirstOrderPattern(share));

        Near(arc3, figures.ArcMinus3?.Value, 0.005);
        Near(arc6, figures.ArcMinus6?.Value, 0.005);
        Near(silent, figures.Null?.Value, 0.005);
        Near(at90, figures.LevelAt90.Value, 0.005);
        Near(at180, figures.LevelAt180.Value, 0.005);
        Near(power, figures.RandomEnergyEfficiency, 0.00005);
        Near(index, figures.DirectivityIndex.Value, 0.005);
        Near(factor, figures.DistanceFactor, 0.0005);
        Near(frontToBack, figures.FrontToBack.Value, 0.005);
    }

    // Source: HyperPhysics, Georgia State University, hbase/Audio/mic3.html, as read; sanity band 1° and 0.3 dB.
    [Theory]
    [InlineData("cardioid", 131, 180, -6, MinusInfinity, 180)]
    [InlineData("supercardioid", 115, 156, -8.5, -12, 127)]
    [InlineData("hypercardioid", 105, 141, -12, -6, 110)]
    [InlineData("figure-8", 90, 120, MinusInfinity, 0, 90)]
    public static void HyperPhysics_FirstOrderTable_AgreesWithin1DegreeAnd0_3Decibels(
        string name, double arc3, double arc6, double at90, double at180, double silent)
    {
        // The page mixes roundings of the supercardioid: its null and rear are those of 0.375 + 0.625·cos θ.
        var figures = PatternFigures.Of(name == "supercardioid" ? new FirstOrderPattern(0.375) : Parse(name));

        Near(arc3, figures.ArcMinus3!.Value.Value, 1);
        Near(arc6, figures.ArcMinus6!.Value.Value, 1);
        Near(silent, figures.Null!.Value.Value, 1);
        Near(at90, figures.LevelAt90.Value, 0.3);
        Near(at180, figures.LevelAt180.Value, 0.3);
    }

    // Source: a manufacturer's handbook tip on a public page, as read: 1, 1.7, 1.9, 2.0.
    [Theory]
    [InlineData("omni", 1)]
    [InlineData("cardioid", 1.7)]
    [InlineData("supercardioid", 1.9)]
    [InlineData("hypercardioid", 2.0)]
    public static void PublishedDistanceFactors_AgreeAsRounded(string name, double factor)
        => Near(factor, PatternFigures.Of(Parse(name)).DistanceFactor, 0.05);

    // Source: a university's figure script, as read: 1/efficiency is 1, 3, 3.73, 4, 3.
    [Theory]
    [InlineData("omni", 1, 0.005)]
    [InlineData("cardioid", 3, 0.005)]
    [InlineData("supercardioid", 3.73, 0.005)]
    [InlineData("hypercardioid", 4, 0.005)]
    [InlineData("figure-8", 3, 0.005)]
    public static void PublishedDirectivityFactors_AgreeAsRounded(string name, double factor, double tolerance)
        => Near(factor, 1 / PatternFigures.Of(Parse(name)).RandomEnergyEfficiency, tolerance);

    // Source: IEC 60268-4:2014, 13.2.2: the ideal cardioid has 10·lg 3.
    [Fact]
    public static void Iec60268Part4_DirectivityIndexOfACardioid_Is10Lg3()
        => Assert.Equal(10 * Math.Log10(3), PatternFigures.Of(FirstOrderPattern.Cardioid).DirectivityIndex.Value, 1e-12);

    [Fact]
    public static void NamedPatterns_AreExact()
    {
        Assert.Equal(60, PatternFigures.Of(FirstOrderPattern.FigureEight).ArcMinus6!.Value.Value / 2, 1e-9);
        Assert.Equal(45, PatternFigures.Of(FirstOrderPattern.FigureEight).ArcMinus3!.Value.Value / 2, 1e-9);
        Assert.Equal(180, PatternFigures.Of(FirstOrderPattern.Cardioid).ArcMinus6!.Value.Value, 1e-9);
        Assert.Equal(Math.Acos(-1 / 3.0) * 180 / Math.PI, PatternFigures.Of(FirstOrderPattern.Hypercardioid).Null!.Value.Value, 1e-9);
    }

    [Fact]
    public static void Supercardioid_HasTheMostFrontAgainstBack_AndHypercardioidTheHighestDirectivity()
    {
        var grid = Enumerable.Range(0, 1001).Select(i => new FirstOrderPattern(i / 1000.0)).ToList();

        Assert.Equal(0.366, grid.MaxBy(pattern => PatternFigures.Of(pattern).FrontToBack.Value)!.OmniShare);
        Assert.Equal(0.25, grid.MaxBy(pattern => PatternFigures.Of(pattern).DirectivityIndex.Value)!.OmniShare);
    }

    [Fact]
    public static void NumericFigures_AgreeWithTheClosedForms()
        => Gen.Double[0, 1].Sample(share =>
        {
            var exact = PatternFigures.Of(new FirstOrderPattern(share));
            var numeric = PatternFigures.Of(new Unnamed(share), OneKilohertz);

            Near(exact.RandomEnergyEfficiency, numeric.RandomEnergyEfficiency, 1e-9);
            Near(exact.RearShare, numeric.RearShare, 1e-9);
            // Where an arc just closes behind, cos θ is flat and the angle cannot be had to a millionth.
            if (exact.ArcMinus3 is not { Value: > 359 })
                Near(exact.ArcMinus3?.Value, numeric.ArcMinus3?.Value, 1e-6);
            if (exact.ArcMinus6 is not { Value: > 359 })
                Near(exact.ArcMinus6?.Value, numeric.ArcMinus6?.Value, 1e-6);
            if (share < 0.49)
                Near(exact.Null?.Value, numeric.Null?.Value, 1e-6);
        }, iter: 200);

    private static FirstOrderPattern Parse(string name) => PatternNames.TryParse(name, out var pattern) ? pattern : throw new InvalidOperationException(name);

    private static void Near(double? expected, double? actual, double tolerance)
    {
        if (expected is not { } number || double.IsInfinity(number))
            Assert.Equal(expected, actual);
        else
            Assert.InRange(actual ?? double.NaN, number - tolerance - 1e-12, number + tolerance + 1e-12);
    }

    /// <summary>A first-order pattern that does not say so, to send it through the numeric way.</summary>
    private sealed class Unnamed(double share) : IPattern
    {
        public string Name => "unnamed";

        public double Gain(double angleRadians, double frequencyHertz) => share + ((1 - share) * Math.Cos(angleRadians));
    }
}
