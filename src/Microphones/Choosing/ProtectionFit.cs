using System.Globalization;
using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Choosing;

/// <summary>Whether a pair lies side by side, along the mid's axis, inside a wind protection.</summary>
/// <param name="TooLongMillimetres">By how much it is too long; 0 or less fits; null when not known.</param>
/// <param name="TooWideMillimetres">By how much it is too wide; 0 or less fits; null when not known.</param>
/// <remarks>
/// The longer of the two with 10 mm of air at each end, and both diameters with 5 mm between and around: air is what keeps the wind off.
/// Common practice, no source. A side that stands across needs its length where its diameter is counted here.
/// </remarks>
public sealed record ProtectionFit(double? TooLongMillimetres, double? TooWideMillimetres)
{
    private const double AirAtEachEnd = 10;
    private const double AirAcross = 5;

    /// <summary>Holds a pair against a protection.</summary>
    public static ProtectionFit Of(Microphone mid, Microphone side, WindProtection protection)
    {
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        ArgumentNullException.ThrowIfNull(protection);
        double? longest = mid.LengthMillimetres is { } m && side.LengthMillimetres is { } s ? Math.Max(m, s) : null;
        return new(
            longest + (2 * AirAtEachEnd) - protection.InnerLengthMillimetres,
            mid.DiameterMillimetres + side.DiameterMillimetres + (3 * AirAcross) - protection.InnerDiameterMillimetres);
    }

    /// <summary>The same in words, one sentence without a full stop.</summary>
    public string InWords(WindProtection protection)
    {
        ArgumentNullException.ThrowIfNull(protection);
        if (TooLongMillimetres is not { } longer || TooWideMillimetres is not { } wider)
            return $"whether it fits into {protection.Name} is not known";
        return (longer > 0, wider > 0) switch
        {
            (false, false) => string.Create(CultureInfo.InvariantCulture, $"fits into {protection.Name} with {-longer:0} mm to spare in length and {-wider:0} mm across"),
            (true, false) => string.Create(CultureInfo.InvariantCulture, $"is {longer:0} mm too long for {protection.Name}"),
            (false, true) => string.Create(CultureInfo.InvariantCulture, $"is {wider:0} mm too wide for {protection.Name}"),
            _ => string.Create(CultureInfo.InvariantCulture, $"is {longer:0} mm too long and {wider:0} mm too wide for {protection.Name}"),
        };
    }
}
