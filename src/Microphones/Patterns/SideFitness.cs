using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Microphones.Patterns;

/// <summary>Whether a pattern can be a side: deaf to both sides of its axis, and as loud behind as in front with opposite polarity.</summary>
public static class SideFitness
{
    /// <summary>How far an amplitude may lie from that of an odd pattern, 1 being the axis: −16.5 dB. Common practice, no source.</summary>
    public const double Tolerance = 0.15;

    private const int StepDegrees = 15;

    /// <summary>Where a measured pattern is judged.</summary>
    public static Hertz Reference { get; } = new(1000);

    /// <summary>Whether the pattern is odd about its own plane within a tolerance: g(90°) = 0, g(180° − θ) = −g(θ), every 15 degrees.</summary>
    /// <param name="pattern">Any pattern.</param>
    /// <param name="tolerance">In amplitude against the axis; <see cref="Tolerance"/> unless said.</param>
    public static bool IsFigureEight(this IPattern pattern, double tolerance = Tolerance) => WorstDeviation(pattern, Reference) <= tolerance;

    /// <summary>The largest |g(θ) + g(180° − θ)|, and |g(90°)|, in amplitude against the axis; 0 for a true figure-8.</summary>
    public static double WorstDeviation(IPattern pattern, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern is FirstOrderPattern first)
            return 2 * first.OmniShare;
        var worst = Math.Abs(pattern.Gain(Math.PI / 2, frequency.Value));
        for (var degrees = 0; degrees < 90; degrees += StepDegrees)
        {
            var theta = new Degrees(degrees).Radians;
            worst = Math.Max(worst, Math.Abs(pattern.Gain(theta, frequency.Value) + pattern.Gain(Math.PI - theta, frequency.Value)));
        }

        return worst;
    }

    /// <summary>What this pattern would do as a side, in plain words; null when it is a figure-8 and does its work.</summary>
    public static string? WhyNot(IPattern pattern)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern.IsFigureEight())
            return null;
        var front = pattern.Gain(Math.PI / 2, Reference.Value);
        var rear = pattern.Gain(Math.PI, Reference.Value);
        return string.Create(CultureInfo.InvariantCulture, $"a side must be a figure-8: this one ({pattern.Name}) {Ahead(front)}, and {Right(rear)}. Choose a figure-8 or a microphone that can be switched to one.");
    }

    private static string Ahead(double front) => Math.Abs(front) <= Tolerance
        ? "is deaf straight ahead as it should be"
        : string.Create(CultureInfo.InvariantCulture, $"hears straight ahead at {Decibels.FromAmplitudeRatio(front)}, which would pull the middle of the image to one side");

    private static string Right(double rear) => rear switch
    {
        > Tolerance => "sounds from the right arrive in the same polarity as those from the left, so left and right would not part",
        >= -Tolerance => "it hardly hears the right, so only the left half would spread",
        _ => "its two lobes are not alike, so the image would lean",
    };
}
