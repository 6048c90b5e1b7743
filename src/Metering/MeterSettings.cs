namespace Athwart.Metering;

/// <summary>What a <see cref="TakeMeter"/> measures; <c>new()</c> measures everything at unity side gain.</summary>
public sealed record MeterSettings
{
    /// <summary>g in left = mid + g·side, right = mid − g·side; an amplitude ratio, 0 or more, 0 is mono; 1 by default.</summary>
    public double SideGain { get; init; } = 1;

    /// <summary>Whether true peaks are interpolated; when false the true peak reads the sample peak.</summary>
    public bool TruePeak { get; init; } = true;

    /// <summary>Whether the highest useful frequency is looked for; when false it reads 0 Hz.</summary>
    public bool Spectrum { get; init; } = true;

    /// <summary>Whether faults are listened for: clicks, dropouts, hum, wind and the like.</summary>
    public bool Faults { get; init; } = true;
}
