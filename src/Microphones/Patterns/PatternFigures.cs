using Athwart.Quantities;

namespace Athwart.Microphones.Patterns;

/// <summary>What is said of a pattern in one line; a figure that the pattern does not have is null.</summary>
/// <param name="ArcMinus3">Full angle within which it hears at half power or more (−3.01 dB); null when it is never that far down.</param>
/// <param name="ArcMinus6">Full angle within which it hears at half amplitude or more (−6.02 dB); null when it is never that far down.</param>
/// <param name="Null">Angle off the axis at which it hears nothing; null when there is none. The first one where there are several.</param>
/// <param name="LevelAt90">Level at 90° against the axis; −∞ in a null.</param>
/// <param name="LevelAt180">Level from behind against the axis; −∞ in a null.</param>
/// <param name="RandomEnergyEfficiency">Power from all around against an omni of the same sensitivity, 0 to 1 for first order.</param>
/// <param name="DirectivityIndex">−10·lg of the random energy efficiency.</param>
/// <param name="DistanceFactor">How much farther away than an omni for the same share of room, 1/√efficiency.</param>
/// <param name="FrontToBack">Energy from the front half against the rear half of a diffuse field.</param>
/// <param name="RearShare">Share of the energy of a diffuse field that comes from behind, 0 to 1.</param>
/// <remarks>
/// First order, A + B·cos θ: efficiency A² + B²/3; front and rear halves ½·(A² ± A·B + B²/3). Others: numeric mean over the
/// sphere. Source: HyperPhysics (microphone patterns); IEC 60268-4:2014, 13.2.2 for the directivity index; see docs/sources.md.
/// </remarks>
public sealed record PatternFigures(
    Degrees? ArcMinus3,
    Degrees? ArcMinus6,
    Degrees? Null,
    Decibels LevelAt90,
    Decibels LevelAt180,
    double RandomEnergyEfficiency,
    Decibels DirectivityIndex,
    double DistanceFactor,
    Decibels FrontToBack,
    double RearShare)
{
    /// <summary>A measured table that falls below this amplitude (−40 dB) has a null there: common practice, no source.</summary>
    public const double MeasuredNullAmplitude = 0.01;

    private const double ScanStep = Math.PI / 720;

    /// <summary>The figures of a pattern at a frequency; a first-order pattern is the same at all of them.</summary>
    public static PatternFigures Of(IPattern pattern, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        return pattern is FirstOrderPattern firstOrder ? Of(firstOrder) : Measured(pattern, frequency.Value);
    }

    /// <summary>The exact figures of a first-order pattern.</summary>
    public static PatternFigures Of(FirstOrderPattern pattern)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        var (a, b) = (pattern.OmniShare, pattern.FigureEightShare);
        var rear = ((a * a) - (a * b) + (b * b / 3)) / 2;
        // cos 90° is not exactly 0 in floating point; the closed forms A and A − B are.
        return Build(Arc(pattern, Math.Sqrt(0.5)), Arc(pattern, 0.5), FirstOrderNull(a, b), a, a - b, (a * a) + (b * b / 3), rear);
    }

    /// <summary>The full angle within which a pattern stays above a level against the axis.</summary>
    /// <param name="pattern">First order.</param>
    /// <param name="amplitude">Amplitude against the axis, above 0 and below 1, such as 0.5.</param>
    /// <returns>Null when the pattern never falls that far.</returns>
    public static Degrees? Arc(FirstOrderPattern pattern, double amplitude)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern.FigureEightShare == 0)
            return null;
        var cosine = (amplitude - pattern.OmniShare) / pattern.FigureEightShare;
        return cosine < -1 ? null : Degrees.FromRadians(2 * Math.Acos(cosine));
    }

    /// <summary>The power gathered from all around against an omni: the random energy efficiency.</summary>
    public static double DiffusePower(IPattern pattern, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern is FirstOrderPattern first)
            return (first.OmniShare * first.OmniShare) + (first.FigureEightShare * first.FigureEightShare / 3);
        return SphereIntegral.Mean(theta => Square(pattern.Gain(theta, frequency.Value)));
    }

    private static Degrees? FirstOrderNull(double a, double b) => a <= b ? Degrees.FromRadians(Math.Acos(-a / b)) : null;

    private static PatternFigures Build(Degrees? arc3, Degrees? arc6, Degrees? silent, double at90, double at180, double power, double rear) => new(
        arc3,
        arc6,
        silent,
        Decibels.FromAmplitudeRatio(at90),
        Decibels.FromAmplitudeRatio(at180),
        power,
        -Decibels.FromPowerRatio(power),
        1 / Math.Sqrt(power),
        Decibels.FromPowerRatio((power - rear) / rear),
        rear / power);

    private static PatternFigures Measured(IPattern pattern, double hertz)
    {
        var rear = SphereIntegral.RearShare(theta => Square(pattern.Gain(theta, hertz)));
        var power = SphereIntegral.Mean(theta => Square(pattern.Gain(theta, hertz)));
        return Build(
            MeasuredArc(pattern, hertz, Math.Sqrt(0.5)),
            MeasuredArc(pattern, hertz, 0.5),
            MeasuredNull(pattern, hertz),
            pattern.Gain(Math.PI / 2, hertz),
            pattern.Gain(Math.PI, hertz),
            power,
            rear);
    }

    private static Degrees? MeasuredArc(IPattern pattern, double hertz, double amplitude)
        => Crossing.First(theta => Math.Abs(pattern.Gain(theta, hertz)) - amplitude, Math.PI, ScanStep) is { } half
            ? Degrees.FromRadians(2 * half) : null;

    /// <summary>Where the sign turns, or the deepest place below −40 dB.</summary>
    private static Degrees? MeasuredNull(IPattern pattern, double hertz)
    {
        if (Crossing.First(theta => pattern.Gain(theta, hertz), Math.PI, ScanStep) is { } turn)
            return Degrees.FromRadians(turn);
        var deepest = Enumerable.Range(0, 721).MinBy(i => Math.Abs(pattern.Gain(i * Math.PI / 720, hertz)));
        return Math.Abs(pattern.Gain(deepest * Math.PI / 720, hertz)) <= MeasuredNullAmplitude ? new Degrees(deepest / 4.0) : null;
    }

    private static double Square(double value) => value * value;
}
