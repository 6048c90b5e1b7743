using System.Globalization;

namespace Athwart.Jobs.Cut;

/// <summary>A place in a take as a person writes it: seconds, minutes and seconds, a frame number, or the start or end.</summary>
/// <remarks>'12.5' and '12.5s' are seconds, '1:02.25' minutes and seconds, '1:00:00' an hour, '480000f' a frame, 'start', 'end', '-2' two seconds before the end.</remarks>
public readonly record struct TakePlace
{
    private TakePlace(double? seconds, long? frame, bool fromEnd)
    {
        Seconds = seconds;
        Frame = frame;
        FromEnd = fromEnd;
    }

    /// <summary>The first frame.</summary>
    public static TakePlace Start { get; } = new(0, null, false);

    /// <summary>After the last frame.</summary>
    public static TakePlace End { get; } = new(0, null, true);

    private double? Seconds { get; }

    private long? Frame { get; }

    private bool FromEnd { get; }

    /// <summary>At so many seconds from the start.</summary>
    public static TakePlace AtSeconds(double seconds) => new(seconds, null, false);

    /// <summary>At a frame.</summary>
    public static TakePlace AtFrame(long frame) => new(null, frame, false);

    /// <summary>The frame meant in a take, to the nearest.</summary>
    public long Resolve(int sampleRateHertz, long frameCount)
    {
        var offset = Frame ?? (long)Math.Round(Seconds.GetValueOrDefault() * sampleRateHertz, MidpointRounding.AwayFromZero);
        return FromEnd ? frameCount - offset : offset;
    }

    /// <summary>Reads a place; invariant culture.</summary>
    public static bool TryParse(string? text, out TakePlace place)
    {
        place = Start;
        var trimmed = text?.Trim() ?? "";
        if (string.Equals(trimmed, "start", StringComparison.OrdinalIgnoreCase))
            return true;
        if (string.Equals(trimmed, "end", StringComparison.OrdinalIgnoreCase))
        {
            place = End;
            return true;
        }

        var fromEnd = trimmed.StartsWith('-');
        var digits = fromEnd ? trimmed[1..] : trimmed;
        if (digits.EndsWith('f') && long.TryParse(digits[..^1], NumberStyles.None, CultureInfo.InvariantCulture, out var frame))
        {
            place = new(null, frame, fromEnd);
            return true;
        }

        if (!TrySeconds(digits.TrimEnd('s'), out var seconds))
            return false;
        place = new(seconds, null, fromEnd);
        return true;
    }

    // Minutes and hours are whole and stand before colons; only the last field may have a fraction.
    private static bool TrySeconds(string text, out double seconds)
    {
        seconds = 0;
        var fields = text.Split(':');
        // The parser of the system reads 'NaN' and '∞' as numbers, whatever the style.
        if (fields.Length > 3 || !double.TryParse(fields[^1], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out seconds) || !double.IsFinite(seconds))
            return false;
        double unit = 60;
        for (var i = fields.Length - 2; i >= 0; i--, unit *= 60)
        {
            if (!int.TryParse(fields[i], NumberStyles.None, CultureInfo.InvariantCulture, out var whole))
                return false;
            seconds += whole * unit;
        }

        return true;
    }
}
