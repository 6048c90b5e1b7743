using System.Globalization;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>Backwards from what is wanted to the side level: by included angle, virtual pattern, crossed pair or coverage.</summary>
/// <remarks>Mids and sides that are measured are taken by their nearest first-order pattern, coverage excepted. Source: derived.</remarks>
public static class RigSettings
{
    private const double AngleTolerance = 0.01;
    private const double ShareTolerance = 0.0005;
    private const int Halvings = 60;

    /// <summary>−60 dB: below it the side is as good as not there.</summary>
    public static Decibels Lowest { get; } = new(-60);

    /// <summary>+60 dB: above it the mid is as good as not there.</summary>
    public static Decibels Highest { get; } = new(60);

    /// <summary>How far a mid's omni share may lie from the one a crossed pair needs: 0.05, what tables of patterns differ by among themselves.</summary>
    public const double MidShareTolerance = 0.05;

    /// <summary>The side level for an included angle of the virtual pair: gS = gM·B·tan φ.</summary>
    /// <param name="mid">The mid; an omni gives 180 degrees at any side level.</param>
    /// <param name="side">The side; a figure-8.</param>
    /// <param name="includedAngle">Above 0 and at most 180 degrees.</param>
    /// <param name="frequency">Ignored by first-order pairs.</param>
    public static RigSetting ForIncludedAngle(IPattern mid, IPattern side, Degrees includedAngle, Hertz frequency)
    {
        RequireAngle(includedAngle, 180, "an included angle");
        var fit = FirstOrderFit.Of(mid, side, frequency);
        // An omni gives 180° at any level; equal gain is the plain choice.
        var gain = Math.Abs(fit.B) < 1e-12 ? 1 : fit.B * Math.Tan(includedAngle.Radians / 2) / fit.C;
        var level = Limited(gain);
        var pair = Virtual(fit, level);
        return Answer(fit, level, includedAngle.Value, pair.IncludedAngle.Value, AngleTolerance, "an included angle", "degrees");
    }

    /// <summary>The side level for a virtual pattern: R = A·(1 − a′)/a′ and gS = √(R² − B²).</summary>
    /// <param name="mid">The mid; the virtual pattern is never wider than it.</param>
    /// <param name="side">The side; a figure-8.</param>
    /// <param name="virtualPattern">What left and right should hear like.</param>
    /// <param name="frequency">Ignored by first-order pairs.</param>
    public static RigSetting ForPattern(IPattern mid, IPattern side, FirstOrderPattern virtualPattern, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(virtualPattern);
        var fit = FirstOrderFit.Of(mid, side, frequency);
        var wanted = virtualPattern.OmniShare;
        var level = Limited(GainForShare(fit, wanted));
        var pair = Virtual(fit, level);
        return Answer(fit, level, wanted, pair.OmniShare, ShareTolerance, "a virtual omni share", "");
    }

    /// <summary>The mid-side pair that is equal to a crossed pair of first-order microphones: M = A + B·cos h·cos θ, S = B·sin h·sin θ.</summary>
    /// <param name="pattern">Of both microphones.</param>
    /// <param name="includedAngle">Between their axes, above 0 and at most 180 degrees.</param>
    /// <returns>Null when no mid is left, as with figure-8s at 180 degrees, or no side, as with omnis.</returns>
    public static MidSideOfCrossed? FromCrossedPair(FirstOrderPattern pattern, Degrees includedAngle)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        RequireAngle(includedAngle, 180, "an included angle");
        var half = includedAngle.Radians / 2;
        // cos 90° is not exactly 0 in floating point.
        var ahead = includedAngle.Value == 180 ? 0 : pattern.FigureEightShare * Math.Cos(half);
        var mid = pattern.OmniShare + ahead;
        var side = pattern.FigureEightShare * Math.Sin(half);
        return mid <= 0 || side <= 0 ? null
            : new(new FirstOrderPattern(pattern.OmniShare / mid), Decibels.FromAmplitudeRatio(side / mid), Decibels.FromAmplitudeRatio(mid));
    }

    /// <summary>The side level with which a mid gives a wanted crossed pair: reached when the mid is the one it needs, else by its included angle.</summary>
    public static RigSetting ForCrossedPair(IPattern mid, IPattern side, FirstOrderPattern pattern, Degrees includedAngle, Hertz frequency)
    {
        var needed = FromCrossedPair(pattern, includedAngle);
        var byAngle = ForIncludedAngle(mid, side, includedAngle, frequency);
        var fit = FirstOrderFit.Of(mid, side, frequency);
        var share = fit.A / (fit.A + fit.B);
        if (needed is not null && Math.Abs(share - needed.Mid.OmniShare) <= MidShareTolerance)
            return byAngle;
        var remark = needed is null
            ? "no mid-side pair is equal to this crossed pair: it leaves no mid or no side"
            : string.Create(CultureInfo.InvariantCulture, $"not reachable with this mid: the crossed pair needs a mid of omni share {needed.Mid.OmniShare:0.00} and this one has {share:0.00}; nearest by included angle: {byAngle.Got:0.0} degrees with omni share {byAngle.Pair.OmniShare:0.00} at {byAngle.SideLevel}");
        return byAngle with { Reached = false, Remark = remark };
    }

    /// <summary>The side level for a coverage: closed form for first order; else more side is narrower, so the level is halved in on.</summary>
    /// <param name="mid">The mid.</param>
    /// <param name="side">The side; a figure-8.</param>
    /// <param name="coverage">Above 0 and below 360 degrees.</param>
    /// <param name="threshold">Difference of left and right at its edge, such as <see cref="Coverage.FullSide"/>.</param>
    /// <param name="frequency">Ignored by first-order pairs.</param>
    public static RigSetting ForCoverage(IPattern mid, IPattern side, Degrees coverage, Decibels threshold, Hertz frequency)
    {
        RequireAngle(coverage, 360, "a coverage");
        var pair = new MidSidePair(mid, side, default);
        double? At(double level) => Coverage.Of(pair with { SideLevel = new(level) }, threshold, frequency)?.Value;
        var closed = pair.IsFirstOrder ? Coverage.SideGainOfFirstOrder(((FirstOrderPattern)mid).OmniShare, coverage, Coverage.SideToMid(threshold)) : null;
        var level = closed is { } gain ? Limited(gain).Value : NearestLevel(At, coverage.Value);
        var got = At(level);
        var fit = FirstOrderFit.Of(mid, side, frequency);
        return got is { } degrees
            ? Answer(fit, new(level), coverage.Value, degrees, AngleTolerance, "a coverage", "degrees")
            : new(false, new(level), default, coverage.Value, null, Virtual(fit, new(level)), "not reachable with this pair: left and right never differ by the threshold");
    }

    /// <summary>Halves between 'too wide or never' and 'narrow enough'; where the coverage jumps, the nearer side of the jump.</summary>
    private static double NearestLevel(Func<double, double?> coverageAt, double wanted)
    {
        var (wide, narrow) = (Lowest.Value, Highest.Value);
        if (coverageAt(wide) <= wanted)
            return wide;
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (wide + narrow) / 2;
            if (coverageAt(middle) <= wanted)
                narrow = middle;
            else
                wide = middle;
        }

        return coverageAt(wide) is { } wider && wider - wanted < Math.Abs((coverageAt(narrow) ?? 0) - wanted) ? wide : narrow;
    }

    private static double GainForShare(FirstOrderFit fit, double share)
    {
        // A figure-8 mid gives crossed figure-8s at any level; equal gain is the plain choice.
        if (Math.Abs(fit.A) < 1e-12)
            return 1;
        var radius = share == 0 ? double.PositiveInfinity : fit.A * (1 - share) / share;
        return radius <= Math.Abs(fit.B) ? 0 : Math.Sqrt((radius - fit.B) * (radius + fit.B)) / fit.C;
    }

    private static RigSetting Answer(FirstOrderFit fit, Decibels level, double wanted, double got, double tolerance, string what, string unit)
    {
        var pair = Virtual(fit, level);
        // At either end one of the two is as good as gone, however near the figure comes.
        var reached = Math.Abs(got - wanted) <= tolerance && level > Lowest && level < Highest;
        var remark = reached
            ? $"{what} of {Amount(got, unit)} at a side level of {level}"
            : $"{what} of {Amount(wanted, unit)} is not reachable with this mid; nearest is {Amount(got, unit)} at a side level of {level}{AtTheEnd(level)}";
        return new(reached, level, -pair.OnAxisGain, wanted, got, pair, remark);
    }

    private static string AtTheEnd(Decibels level) => level <= Lowest ? ", as good as no side" : level >= Highest ? ", as good as no mid" : "";

    private static string Amount(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value:0.###} {unit}").TrimEnd();

    private static VirtualPair Virtual(FirstOrderFit fit, Decibels level) => VirtualPair.From(fit, 1, level.AmplitudeRatio);

    internal static Decibels Limited(double gain) => gain > 0
        ? new(Math.Clamp(20 * Math.Log10(gain), Lowest.Value, Highest.Value))
        : Lowest;

    private static void RequireAngle(Degrees angle, double highest, string what)
    {
        if (!(angle.Value > 0 && angle.Value <= highest))
            throw new ArgumentOutOfRangeException(nameof(angle), angle.Value, string.Create(CultureInfo.InvariantCulture, $"{what} lies above 0 and at most {highest:0} degrees"));
    }
}

/// <summary>What a crossed pair is as mid and side.</summary>
/// <param name="Mid">The mid it needs.</param>
/// <param name="SideLevel">gS/gM, axis against axis.</param>
/// <param name="MidTrim">Level of that mid on its axis against one of the crossed microphones on its own.</param>
public sealed record MidSideOfCrossed(FirstOrderPattern Mid, Decibels SideLevel, Decibels MidTrim);
