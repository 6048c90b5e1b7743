namespace Athwart.Jobs.Shape;

/// <summary>The width of the decode, said in exactly one way; what is asked for in degrees or as a correlation is worked out for each take from its rig.</summary>
public sealed record TreatmentDecode
{
    /// <summary>Gain of the side against the mid in decibels, −100 to +60.</summary>
    public double? SideLevelDecibels { get; init; }

    /// <summary>True for no side at all: left and right are the mid.</summary>
    public bool? NoSide { get; init; }

    /// <summary>The sector in front that fills the whole width between the loudspeakers, 10 to 360 degrees (level difference 15 dB).</summary>
    public double? CoverageDegrees { get; init; }

    /// <summary>The angle between the axes of the equal crossed pair, 1 to 180 degrees.</summary>
    public double? IncludedAngleDegrees { get; init; }

    /// <summary>With <see cref="IncludedAngleDegrees"/>: the pattern of the crossed pair, its omni share 0 to 1; 0.5 is cardioid. The mid is trimmed so that it is met.</summary>
    public double? PatternOmniShare { get; init; }

    /// <summary>The correlation of left and right in a diffuse field, −1 to 1.</summary>
    public double? DiffuseCorrelation { get; init; }

    /// <summary>As wide as stays safe in mono: the lowest correlation of left and right over the whole of the treated cut, −0.9 to 0.9.</summary>
    public double? SafeCorrelation { get; init; }
}
