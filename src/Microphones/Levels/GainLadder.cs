using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>One position of the gain control.</summary>
/// <param name="GainDecibels">The gain in dB.</param>
/// <param name="LoudestDecibelsFullScale">Where the loudest peak lands, in dBFS.</param>
/// <param name="QuietestDecibelsFullScale">Where the quietest wanted sound lands, RMS in dBFS.</param>
/// <param name="FullScaleSoundDecibels">The sine in dB SPL that reaches full scale.</param>
public readonly record struct GainRung(double GainDecibels, double LoudestDecibelsFullScale, double QuietestDecibelsFullScale, double FullScaleSoundDecibels);

/// <summary>Each gain a channel can be set to and what it leaves, for the picture of a gain plan.</summary>
public static class GainLadder
{
    /// <summary>Every step, lowest gain first; every whole decibel where the control turns freely or finer than a picture shows.</summary>
    /// <param name="microphone">The microphone as it is set.</param>
    /// <param name="recorder">The recorder it goes into.</param>
    /// <param name="quietestDecibels">The quietest wanted sound, RMS in dB SPL on the axis.</param>
    /// <param name="loudest">The loudest sound on the axis.</param>
    /// <returns>Empty when the sensitivity or the gain range is not known; the gain plan's reasons say which.</returns>
    public static IReadOnlyList<GainRung> For(MicrophoneSetting microphone, Recorder recorder, double quietestDecibels, LoudestSound loudest)
    {
        ArgumentNullException.ThrowIfNull(microphone);
        ArgumentNullException.ThrowIfNull(recorder);
        if (microphone.SensitivityMillivoltsPerPascal is not { } sensitivity || GainRange.Of(recorder) is not { } range)
            return [];
        var loud = MicrophoneLevels.OutputDecibelsU(sensitivity, loudest.SineDecibels);
        var quiet = MicrophoneLevels.OutputDecibelsU(sensitivity, quietestDecibels);
        var full = MicrophoneLevels.SoundDecibels(sensitivity, range.MaximumInputDecibelsU);
        return [.. range.Gains().Select(gain => new GainRung(gain, range.FullScale(loud, gain), range.FullScale(quiet, gain), full - (gain - range.Lowest)))];
    }
}
