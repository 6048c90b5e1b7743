namespace Athwart.Microphones.Levels;

/// <summary>What a gain plan warns of, the gravest first.</summary>
public enum GainMessageKind
{
    /// <summary>The loudest peak is above what the microphone takes; no gain helps.</summary>
    MicrophoneOverload,

    /// <summary>The loudest peak clips the input even at the lowest gain.</summary>
    InputOverload,

    /// <summary>The lowest gain does not clip, but keeps less than the wanted headroom.</summary>
    HeadroomShort,

    /// <summary>The quietest wanted sound is below the noise.</summary>
    BelowNoise,

    /// <summary>The quietest wanted sound is less than 10 dB above the noise (common practice, no source).</summary>
    NearNoise,

    /// <summary>The highest gain leaves more room than is wanted.</summary>
    GainShort,
}

/// <summary>A warning of a gain plan.</summary>
/// <param name="Kind">What it warns of.</param>
/// <param name="Role">'mid' or 'side'.</param>
/// <param name="Decibels">By how much, in dB, above 0.</param>
/// <param name="Text">The warning in words, with what to do.</param>
public sealed record GainMessage(GainMessageKind Kind, string Role, double Decibels, string Text);
