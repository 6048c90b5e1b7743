using System.Globalization;

namespace Athwart.Jobs.Shape;

/// <summary>The width of a treatment in words.</summary>
public static class TreatmentDecodeWords
{
    /// <summary>'decoded at a side level of −3 dB'.</summary>
    public static string Describe(TreatmentDecode decode)
    {
        ArgumentNullException.ThrowIfNull(decode);
        if (decode.NoSide is true)
            return "decoded without a side: left and right are the mid";
        if (decode.CoverageDegrees is { } coverage)
            return Text($"decoded so that {coverage:0.#}° in front fill the width");
        if (decode is { IncludedAngleDegrees: { } crossed, PatternOmniShare: { } share })
            return Text($"decoded as a crossed pair at {crossed:0.#}°, omni share {share:0.##}");
        if (decode.IncludedAngleDegrees is { } angle)
            return Text($"decoded as a crossed pair at {angle:0.#}°");
        if (decode.DiffuseCorrelation is { } correlation)
            return Text($"decoded to a correlation of {correlation:0.##} in a diffuse field");
        if (decode.SafeCorrelation is { } safe)
            return Text($"decoded as wide as keeps the correlation at {safe:0.##}");
        var level = decode.SideLevelDecibels ?? 0;
        return Text($"decoded at a side level of {(level < 0 ? "−" : level > 0 ? "+" : "")}{Math.Abs(level):0.##} dB");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
