namespace Athwart.Metering.Direction;

/// <summary>Where the dominant sound was over time, a value a column, ahead of the rig.</summary>
/// <remarks>
/// What the mid hears behind lands among what is ahead: behind is ambiguous.
/// </remarks>
public sealed record DirectionTrail
{
    /// <summary>Length in frames.</summary>
    public required long FrameCount { get; init; }

    /// <summary>Frames per second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>A of the mid that was taken, A + B·cos θ.</summary>
    public required double OmniShare { get; init; }

    /// <summary>All bands together.</summary>
    public required DirectionBand Whole { get; init; }

    /// <summary>By band, lowest first.</summary>
    public required IReadOnlyList<DirectionBand> Bands { get; init; }

    /// <summary>Columns over time.</summary>
    public int Columns => Whole.AzimuthDegrees.Length;
}

/// <summary>The trail in one band.</summary>
/// <param name="LowHertz">Its lower edge.</param>
/// <param name="HighHertz">Its upper edge.</param>
/// <param name="AzimuthDegrees">Positive to the left; NaN where nothing dominates or nothing sounds.</param>
/// <param name="UncertaintyDegrees">One standard deviation; NaN with the azimuth.</param>
/// <param name="LevelDecibelsFullScale">Mean power of the mid in the band; −∞ for silence.</param>
/// <param name="DirectShare">The share of the mid's power that comes from one source, 0 to 1; a diffuse field is near 0; NaN for silence.</param>
public sealed record DirectionBand(double LowHertz, double HighHertz, float[] AzimuthDegrees, float[] UncertaintyDegrees, float[] LevelDecibelsFullScale, float[] DirectShare);
