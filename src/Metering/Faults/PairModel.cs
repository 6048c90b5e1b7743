namespace Athwart.Metering.Faults;

/// <summary>How likely a pair is mid and side, side and mid, or left and right, by a logistic model of what physics tells them apart by.</summary>
/// <remarks>
/// What counts for mid and side counts, with the channels exchanged, for side and mid; what counts for left and right does not depend on
/// their order. The side of a figure-8 vanishes for sound from the front and has either sign; left and right have equal noise and equal
/// low end, and hardly ever opposite signs. Coefficients: docs/accuracy.md says how they are fitted again.
/// </remarks>
internal static class PairModel
{
    /// <summary>How many numbers speak for mid and side.</summary>
    public const int Signed = 15;

    /// <summary>How many numbers speak for left and right.</summary>
    public const int Symmetric = 23;

    /// <summary>
    /// Of the numbers for mid and side, then of those for left and right; fitted on 2026-11-30 to the even ones of 300 drawn scenes, in two
    /// of three of which the mid points at the loudest source, each as it is, swapped and decoded, twice.
    /// </summary>
    public static IReadOnlyList<double> Coefficients { get; } =
    [
        1.56, -0.23, -0.21, 0.15, -0.20, -0.60, -0.15, -0.83, -0.38,
        0.44, -0.28, -1.19, 0.08, 0.61, -0.65,
        -1.00, 0.52, -0.30, -0.70, -0.64, 0.05, -0.14, 0.36, -1.03, -1.13, -0.46,
        0.44, 0.85, 0.40, 1.11, 0.87, 0.20, 0.14, -1.23, 1.23, 0.91, -0.16, 0.32,
    ];

    /// <summary>The probabilities of mid and side, side and mid, left and right when each is as likely before looking.</summary>
    public static (double Straight, double Swapped, double Decoded) Of(PairNumbers x) => Of(x, Coefficients);

    /// <summary>The same by other coefficients.</summary>
    public static (double Straight, double Swapped, double Decoded) Of(PairNumbers x, IReadOnlyList<double> w)
    {
        var (straight, swapped, decoded) = (0.0, 0.0, 0.0);
        for (var i = 0; i < Signed; i++)
        {
            straight += w[i] * x.Straight[i];
            swapped += w[i] * x.Swapped[i];
        }

        for (var i = 0; i < Symmetric; i++)
            decoded += w[Signed + i] * x.Decoded[i];
        var most = Math.Max(straight, Math.Max(swapped, decoded));
        var (a, b, c) = (Math.Exp(straight - most), Math.Exp(swapped - most), Math.Exp(decoded - most));
        return (a / (a + b + c), b / (a + b + c), c / (a + b + c));
    }
}
