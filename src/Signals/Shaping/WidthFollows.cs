namespace Athwart.Signals.Shaping;

/// <summary>What a width follows.</summary>
public enum FollowedQuantity
{
    /// <summary>Level of the mid, in dBFS (mean square, full-scale square wave at 0).</summary>
    Level,

    /// <summary>
    /// Brightness of the mid, in hertz: the frequency whose sine would change from frame to frame as strongly, √(mean of f²); of a single
    /// tone its pitch.
    /// </summary>
    Brightness,

    /// <summary>Pitch of the mid, in hertz: how often it rises through zero in a second; of a sound with one voice its fundamental or near it.</summary>
    Pitch,
}

/// <summary>The width follows the sound: its side is turned up or down by how loud, how bright or how high the mid is.</summary>
/// <remarks>
/// Between the low and the high end the gain moves in a straight line in decibels, against decibels for a level and against octaves for hertz;
/// beyond the ends it stands. With the high end's gain below the low end's the width shrinks as the sound grows.
/// </remarks>
public sealed record WidthFollows
{
    /// <summary>Names what is followed and from where to where.</summary>
    /// <param name="quantity">Level, brightness or pitch of the mid.</param>
    /// <param name="low">The low end: −120 to 0 dBFS, or 20 to 40000 Hz.</param>
    /// <param name="high">The high end, above the low one.</param>
    /// <param name="lowSideDecibels">Gain of the side at and below the low end, −60 to +20 dB.</param>
    /// <param name="highSideDecibels">Gain of the side at and above the high end, −60 to +20 dB.</param>
    /// <param name="riseSeconds">Time constant while what is followed grows, 0.002 to 5 s; 0.03 unless stated.</param>
    /// <param name="fallSeconds">Time constant while it falls, 0.002 to 5 s; 0.3 unless stated.</param>
    /// <exception cref="ArgumentException">A setting is out of range, or the ends are not in order.</exception>
    public WidthFollows(FollowedQuantity quantity, double low, double high, double lowSideDecibels, double highSideDecibels, double riseSeconds = 0.03, double fallSeconds = 0.3)
    {
        Quantity = quantity is FollowedQuantity.Level or FollowedQuantity.Brightness or FollowedQuantity.Pitch ? quantity
            : throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "A width follows level, brightness or pitch; name one of them.");
        var (lowest, highest, unit) = quantity == FollowedQuantity.Level ? (-120.0, 0.0, "dBFS") : (20.0, 40_000.0, "Hz");
        Low = SettingsRules.Within(low, lowest, highest, unit);
        High = SettingsRules.Within(high, lowest, highest, unit);
        if (!(high > low))
            throw new ArgumentException("The high end lies above the low one; exchange the gains to turn the width about.", nameof(high));
        LowSideDecibels = SettingsRules.Within(lowSideDecibels, -60, 20, "dB");
        HighSideDecibels = SettingsRules.Within(highSideDecibels, -60, 20, "dB");
        RiseSeconds = SettingsRules.Within(riseSeconds, 0.002, 5, "s");
        FallSeconds = SettingsRules.Within(fallSeconds, 0.002, 5, "s");
    }

    /// <summary>What is followed.</summary>
    public FollowedQuantity Quantity { get; }

    /// <summary>The low end, in dBFS or hertz.</summary>
    public double Low { get; }

    /// <summary>The high end, in dBFS or hertz.</summary>
    public double High { get; }

    /// <summary>Gain of the side at the low end, in decibels.</summary>
    public double LowSideDecibels { get; }

    /// <summary>Gain of the side at the high end, in decibels.</summary>
    public double HighSideDecibels { get; }

    /// <summary>Time constant while it grows, in seconds.</summary>
    public double RiseSeconds { get; }

    /// <summary>Time constant while it falls, in seconds.</summary>
    public double FallSeconds { get; }
}
