namespace Athwart.Metering.Direction;

/// <summary>From the ratio of side to mid to where a sound stood.</summary>
internal static class SourceAzimuth
{
    /// <summary>
    /// The azimuth ahead, in degrees, positive to the left, at which a figure-8 against a mid of A + B·cos θ reads the ratio:
    /// sin θ / (A + B·cos θ) = r, so θ = atan(r·B) + asin(r·A / √(1 + r²·B²)).
    /// </summary>
    /// <param name="ratio">Side against mid, signed, at equal sensitivity.</param>
    /// <param name="omniShare">A of the mid, 0 to 1.</param>
    /// <returns>−180 to 180; where the mid is too wide to explain the ratio, 90 degrees to its side. NaN for NaN.</returns>
    /// <remarks>Source: derived from the patterns; see docs/sources.md#matrix. A sound behind can read the same ratio where the mid hears behind.</remarks>
    public static double FromRatio(double ratio, double omniShare)
    {
        var eight = ratio * (1 - omniShare);
        var sine = ratio * omniShare / Math.Sqrt(1 + (eight * eight));
        return (Math.Atan(eight) + Math.Asin(Math.Clamp(sine, -1, 1))) * 180 / Math.PI;
    }
}
