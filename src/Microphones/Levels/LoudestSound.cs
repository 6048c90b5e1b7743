namespace Athwart.Microphones.Levels;

/// <summary>The loudest sound to be met at the microphones, by its peak.</summary>
/// <param name="PeakDecibels">The peak of the pressure against 20 µPa, in dB: a sine of 94 dB SPL peaks at 97.</param>
public readonly record struct LoudestSound(double PeakDecibels)
{
    /// <summary>Peak above RMS of natural and mechanical sounds, 12 dB: common practice, no source; impulses have far more.</summary>
    public const double CommonCrestDecibels = 12;

    /// <summary>The level of the sine that peaks alike, in dB SPL: what makers' maximum levels are to be compared with.</summary>
    public double SineDecibels => PeakDecibels - SoundPressure.SineCrestDecibels;

    /// <summary>From a peak in dB against 20 µPa.</summary>
    public static LoudestSound FromPeak(double peakDecibels) => new(Require.Finite(peakDecibels));

    /// <summary>From an RMS level in dB SPL, unweighted, and a crest factor of 0 dB or more: how far the peaks lie above it; a sine has 3.01.</summary>
    public static LoudestSound FromLevel(double levelDecibels, double crestDecibels = CommonCrestDecibels)
        => new(Require.Finite(levelDecibels) + Require.NotNegative(crestDecibels));
}
