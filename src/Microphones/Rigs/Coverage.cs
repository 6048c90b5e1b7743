using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>
/// The full angle ahead within which left and right differ by less than a threshold: what lies outside it sounds from one
/// loudspeaker. The first crossing counts.
/// </summary>
/// <remarks>
/// |L/R| = k where gS·S/(gM·M) = (k − 1)/(k + 1). First order: sin θ − c·B·cos θ = c·A with c = (k − 1)/((k + 1)·g), so
/// θ = atan(c·B) + asin(c·A/√(1 + c²·B²)). Thresholds: about 15 dB (Simonsen, Williams) and 18 dB (German tutorials), both from memory.
/// </remarks>
public static class Coverage
{
    private const double ScanStep = Math.PI / 720;

    /// <summary>Straight behind the side is deaf, and so are some mids: the scan ends half a degree before.</summary>
    private const double ScanEnd = Math.PI * (179.5 / 180);

    /// <summary>15 dB, taken unless another is named.</summary>
    public static Decibels FullSide { get; } = new(15);

    /// <summary>18 dB, the wider custom.</summary>
    public static Decibels FullSideWide { get; } = new(18);

    /// <summary>The coverage of a pair at a frequency.</summary>
    /// <param name="pair">Any mid with a side.</param>
    /// <param name="threshold">Above 0 dB and finite.</param>
    /// <param name="frequency">Ignored by first-order pairs.</param>
    /// <returns>0 to 360 degrees; null when the difference never reaches the threshold on one side or the other.</returns>
    public static Degrees? Of(MidSidePair pair, Decibels threshold, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pair);
        var ratio = SideToMid(threshold);
        if (pair.IsFirstOrder)
            return OfFirstOrder(((FirstOrderPattern)pair.Mid).OmniShare, pair.SideLevel.AmplitudeRatio, ratio);
        return Scan(pair, ratio, frequency.Value, 1) is { } left && Scan(pair, ratio, frequency.Value, -1) is { } right
            ? Degrees.FromRadians(left + right) : null;
    }

    /// <summary>The coverage of a first-order mid with an ideal figure-8, without building a pair: for searches over many.</summary>
    /// <param name="omniShare">A of the mid, 0 to 1.</param>
    /// <param name="sideGain">gS/gM as an amplitude ratio, 0 or more.</param>
    /// <param name="sideToMid">(k − 1)/(k + 1), from <see cref="SideToMid"/>.</param>
    public static Degrees? OfFirstOrder(double omniShare, double sideGain, double sideToMid)
    {
        if (sideGain <= 0)
            return null;
        var c = sideToMid / sideGain;
        var eight = c * (1 - omniShare);
        var sine = c * omniShare / Math.Sqrt(1 + (eight * eight));
        return sine > 1 ? null : Degrees.FromRadians(2 * (Math.Atan(eight) + Math.Asin(sine)));
    }

    /// <summary>Backwards for a first-order mid with an ideal figure-8: gS/gM = (k − 1)/(k + 1)·(A + B·cos θ)/sin θ at half the coverage θ.</summary>
    /// <param name="omniShare">A of the mid, 0 to 1.</param>
    /// <param name="coverage">Wanted, above 0 and below 360 degrees.</param>
    /// <param name="sideToMid">(k − 1)/(k + 1), from <see cref="SideToMid"/>.</param>
    /// <returns>An amplitude ratio above 0; null beyond <see cref="WidestOfFirstOrder"/>.</returns>
    public static double? SideGainOfFirstOrder(double omniShare, Degrees coverage, double sideToMid)
    {
        var half = coverage.Radians / 2;
        var gain = sideToMid * (omniShare + ((1 - omniShare) * Math.Cos(half))) / Math.Sin(half);
        return coverage < WidestOfFirstOrder(omniShare) && gain > 0 ? gain : null;
    }

    /// <summary>
    /// The widest coverage a first-order mid can be given: where side/mid is largest, cos θ = −B/A, for mids wider than a cardioid;
    /// between the nulls, cos θ = −A/B, for the others, approached as the side is taken away.
    /// </summary>
    public static Degrees WidestOfFirstOrder(double omniShare)
    {
        var (a, b) = (omniShare, 1 - omniShare);
        return Degrees.FromRadians(2 * Math.Acos(a > b ? -b / a : -a / b));
    }

    /// <summary>The side against the mid, as they enter the sum, at which left and right differ by the threshold: (k − 1)/(k + 1).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The threshold is not above 0 dB or not finite.</exception>
    public static double SideToMid(Decibels threshold)
    {
        if (!(threshold.Value > 0 && double.IsFinite(threshold.Value)))
            throw new ArgumentOutOfRangeException(nameof(threshold), threshold.Value, "a threshold is a difference of left and right above 0 dB, such as 15");
        return (threshold.AmplitudeRatio - 1) / (threshold.AmplitudeRatio + 1);
    }

    /// <summary>The first angle towards one side, in radians from the front, at which side/mid comes to the ratio.</summary>
    private static double? Scan(MidSidePair pair, double ratio, double hertz, int direction)
    {
        var side = pair.SideLevel.AmplitudeRatio;
        return Crossing.First(
            theta => (ratio * Math.Abs(pair.Mid.Gain(theta, hertz))) - (side * Math.Abs(pair.SideUnit(direction * theta, hertz))),
            ScanEnd,
            ScanStep);
    }
}
