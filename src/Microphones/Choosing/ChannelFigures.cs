using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Choosing;

/// <summary>What one setting of a microphone does on one recorder; a pair is two of these.</summary>
/// <param name="Noise">Microphone and input together in dBA; the microphone alone without a recorder; null when not known.</param>
/// <param name="Gain">The gain for the asked levels; null when none were asked or there is no recorder.</param>
internal sealed record ChannelFigures(double? Noise, ChannelGain? Gain)
{
    public static ChannelFigures Of(MicrophoneSetting setting, Recorder? recorder, Wishes wishes)
    {
        if (recorder is null)
            return new(setting.EquivalentNoiseDecibelsA, null);
        var gain = wishes.Loudest is not { } loudest ? null : GainPlan.For(new()
        {
            Mid = setting,
            Side = setting,
            Recorder = recorder,
            QuietestDecibels = wishes.QuietestDecibels ?? 0,
            Loudest = loudest,
            HeadroomDecibels = wishes.HeadroomDecibels,
        }).Mid;
        return new(ChannelNoise.DecibelsA(setting, recorder), gain);
    }
}
