using Athwart.Quantities;

namespace Athwart.Scenes.Rigs;

/// <summary>A mid and a side microphone and the recorder behind them.</summary>
public sealed record Rig
{
    /// <summary>Where the mid's capsule is.</summary>
    public Place Place { get; init; } = new(0, 0, 1.5);

    /// <summary>The azimuth the mid points at, degrees, positive to the left; 180 is backwards.</summary>
    public double MidAzimuthDegrees { get; init; }

    /// <summary>The mid's omni share A; its pattern is A + (1 − A)·cos θ. 0 to 1; 0.5 is a cardioid.</summary>
    public double MidOmniShare { get; init; } = 0.5;

    /// <summary>The azimuth of the side's positive lobe against azimuth 0, degrees; 90 is to the left.</summary>
    public double SideAzimuthDegrees { get; init; } = 90;

    /// <summary>Metres from the mid's capsule to the side's along azimuth 0; positive when the side is in front.</summary>
    public double SideForwardMetres { get; init; }

    /// <summary>The mid.</summary>
    public RigChannel Mid { get; init; } = new();

    /// <summary>The side.</summary>
    public RigChannel Side { get; init; } = new();

    /// <summary>The peak voltage the converter calls full scale.</summary>
    public double FullScaleVolts { get; init; } = 5;

    /// <summary>The peak voltage at which the input stage clips, before the gain; infinite when it does not.</summary>
    public double InputMaximumVolts { get; init; } = double.PositiveInfinity;

    /// <summary>A first-order high pass between the input stage and the converter, hertz; it tilts flat tops. 0 for none.</summary>
    public double ConverterCornerHertz { get; init; }

    /// <summary>What the converter writes.</summary>
    public SampleWord Word { get; init; } = SampleWord.Bits24;

    /// <summary>The channel of a role.</summary>
    public RigChannel Channel(ChannelRole role) => role == ChannelRole.Side ? Side : Mid;

    /// <summary>Sample value, full scale ±1, for one pascal on the axis; what the closed forms' g is made of.</summary>
    public double FullScalePerPascal(ChannelRole role)
    {
        var channel = Channel(role);
        return channel.SensitivityMillivoltsPerPascal / 1000 * Numbers.Levels.Ratio(channel.GainDecibels) / FullScaleVolts;
    }

    /// <summary>The side's gain against the mid's, g, dB.</summary>
    public double SideGainDecibels => Numbers.Levels.Decibels(FullScalePerPascal(ChannelRole.Side) / FullScalePerPascal(ChannelRole.Mid));
}

/// <summary>The samples a recorder writes.</summary>
public enum SampleWord
{
    /// <summary>16-bit integers; full scale clips.</summary>
    Bits16,

    /// <summary>24-bit integers; full scale clips.</summary>
    Bits24,

    /// <summary>32-bit floats, which go on beyond full scale.</summary>
    Floating,
}
