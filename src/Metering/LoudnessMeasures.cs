using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>The loudness figures of a stereo programme; silence, or too short a take, reads −∞ and a range of 0 LU.</summary>
/// <remarks>Source: ITU-R BS.1770-5 Annex 1; EBU Tech 3341 (2023) §2; EBU Tech 3342 (2023).</remarks>
public sealed record LoudnessMeasures
{
    /// <summary>Nothing above any gate.</summary>
    public static LoudnessMeasures Silence { get; } = new();

    /// <summary>Integrated loudness with the absolute gate at −70 LUFS and the relative gate 10 LU down; needs 400 ms.</summary>
    public Loudness Integrated { get; init; } = Loudness.Silence;

    /// <summary>The loudest 400 ms, on a grid of 10 ms; what lies before the take counts as silence.</summary>
    public Loudness MaxMomentary { get; init; } = Loudness.Silence;

    /// <summary>The loudest 3 s, on a grid of 10 ms; what lies before the take counts as silence.</summary>
    public Loudness MaxShortTerm { get; init; } = Loudness.Silence;

    /// <summary>
    /// Loudness range in LU: 95th minus 10th percentile of the gated short-term loudness of every whole 3 s; 0 when the take is
    /// shorter. No silence is appended. Not stable below 60 s.
    /// </summary>
    public Decibels Range { get; init; }
}
