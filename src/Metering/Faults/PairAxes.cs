namespace Athwart.Metering.Faults;

/// <summary>Where the main axis of each cell lies in the plane of the two channels: 0° on the first, 90° on the second, 45° where both are alike.</summary>
/// <remarks>
/// The axis is that of the two-by-two covariance, ½·atan2(2·c, a − b). A sound from the front lies near 0° in mid and side, near 90° when
/// the roles are changed over, near 45° in left and right; to either side of it with sounds from left and right.
/// </remarks>
internal sealed class PairAxes
{
    /// <summary>Bins of ten degrees.</summary>
    public const int Bins = 9;

    private const double WidthDegrees = 10, Clear = 0.6;

    /// <summary>Shares of cells by how far their axis lies from the first channel, whichever way.</summary>
    public double[] FromFirst { get; } = new double[Bins];

    /// <summary>The same, from the second channel.</summary>
    public double[] FromSecond { get; } = new double[Bins];

    /// <summary>The same, from where both channels are alike.</summary>
    public double[] FromMiddle { get; } = new double[Bins];

    /// <summary>Share of cells without a clear axis.</summary>
    public double Mixed { get; private set; }

    /// <summary>Counts cells.</summary>
    /// <param name="decibels">The second channel above the first.</param>
    /// <param name="correlation">Of the two, −1 to 1.</param>
    /// <param name="share">Of all cells, 0 to 1.</param>
    public void Add(double decibels, double correlation, double share)
    {
        var second = Math.Pow(10, decibels / 10);
        var common = 2 * correlation * Math.Sqrt(second);
        if (Math.Sqrt(((1 - second) * (1 - second)) + (common * common)) < Clear * (1 + second))
        {
            Mixed += share;
            return;
        }

        var degrees = 0.5 * Math.Atan2(common, 1 - second) * 180 / Math.PI;
        Count(FromFirst, Math.Abs(degrees), share);
        Count(FromSecond, 90 - Math.Abs(degrees), share);
        // An axis has no ends: −85° lies 50° from 45°.
        Count(FromMiddle, degrees < -45 ? 135 + degrees : Math.Abs(degrees - 45), share);
    }

    private static void Count(double[] bins, double degrees, double share) => bins[Math.Clamp((int)(degrees / WidthDegrees), 0, Bins - 1)] += share;
}
