using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>The noise of one microphone and its input as sound on the microphone's axis, in dBA.</summary>
public static class ChannelNoise
{
    /// <summary>Microphone and input, powers added.</summary>
    /// <param name="equivalentNoiseDecibelsA">The microphone's equivalent noise level in dBA.</param>
    /// <param name="millivoltsPerPascal">Its sensitivity in mV/Pa, above 0.</param>
    /// <param name="inputNoiseDecibelsU">The equivalent input noise in dBu, A-weighted, taken as the same at each gain.</param>
    public static double DecibelsA(double equivalentNoiseDecibelsA, double millivoltsPerPascal, double inputNoiseDecibelsU)
        => SoundPressure.PowerSum(equivalentNoiseDecibelsA, MicrophoneLevels.SoundDecibels(millivoltsPerPascal, inputNoiseDecibelsU));

    /// <summary>The same for a microphone and a recorder; null when one of the three figures is not known.</summary>
    public static double? DecibelsA(MicrophoneSetting microphone, Recorder recorder)
    {
        ArgumentNullException.ThrowIfNull(microphone);
        ArgumentNullException.ThrowIfNull(recorder);
        return microphone is { EquivalentNoiseDecibelsA: { } noise, SensitivityMillivoltsPerPascal: { } sensitivity }
            && recorder.EquivalentInputNoiseDecibelsU is { } input
            ? DecibelsA(noise, sensitivity, input)
            : null;
    }
}
