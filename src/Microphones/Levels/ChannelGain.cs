using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>One channel of a gain plan. Levels are for a sound on the microphone's axis; null is not known, see the plan's reasons.</summary>
public sealed record ChannelGain
{
    /// <summary>The gain to set, in dB, on the recorder's steps and within its range; the lowest where even that keeps no headroom.</summary>
    public double? GainDecibels { get; init; }

    /// <summary>The gain in dB at which the loudest peak would sit exactly at the headroom, whatever steps and range allow.</summary>
    public double? LimitDecibels { get; init; }

    /// <summary>Where the loudest peak lands, in dBFS; above 0 it clips.</summary>
    public double? LoudestDecibelsFullScale { get; init; }

    /// <summary>Where the quietest wanted sound lands, RMS in dBFS (a full-scale sine is 0).</summary>
    public double? QuietestDecibelsFullScale { get; init; }

    /// <summary>From the loudest peak to what the input takes at this gain, in dB; negative when it clips.</summary>
    public double? InputMarginDecibels => -LoudestDecibelsFullScale;

    /// <summary>The same at the lowest gain: all the room the input has.</summary>
    public double? InputMarginAtLowestGainDecibels { get; init; }

    /// <summary>From the loudest peak, as the sine that peaks alike, to the microphone's maximum level, in dB; negative when it overloads.</summary>
    public double? MicrophoneMarginDecibels { get; init; }

    /// <summary>Noise of microphone and input together as sound, in dBA.</summary>
    public double? NoiseDecibelsA { get; init; }

    /// <summary>From that noise to the quietest wanted sound, in dB.</summary>
    public double? QuietestAboveNoiseDecibels { get; init; }

    internal static ChannelGain For(GainPlanRequest request, MicrophoneSetting microphone, string role, List<string> reasons)
    {
        GainReasons.Microphone(microphone, role, reasons);
        var channel = new ChannelGain { MicrophoneMarginDecibels = microphone.MaximumLevelDecibels - request.Loudest.SineDecibels };
        if (microphone.SensitivityMillivoltsPerPascal is not { } sensitivity)
            return channel;
        var noise = ChannelNoise.DecibelsA(microphone, request.Recorder);
        channel = channel with { NoiseDecibelsA = noise, QuietestAboveNoiseDecibels = request.QuietestDecibels - noise };
        return GainRange.Of(request.Recorder) is { } range ? channel.Set(request, sensitivity, range) : channel;
    }

    private ChannelGain Set(GainPlanRequest request, double sensitivity, GainRange range)
    {
        var loudest = MicrophoneLevels.OutputDecibelsU(sensitivity, request.Loudest.SineDecibels);
        var quietest = MicrophoneLevels.OutputDecibelsU(sensitivity, request.QuietestDecibels);
        var limit = range.MaximumInputDecibelsU - loudest - request.HeadroomDecibels + range.Lowest;
        var gain = InputLevels.HighestStep(limit, range.Lowest, range.Highest, range.Step) ?? range.Lowest;
        return this with
        {
            GainDecibels = gain,
            LimitDecibels = limit,
            LoudestDecibelsFullScale = range.FullScale(loudest, gain),
            QuietestDecibelsFullScale = range.FullScale(quietest, gain),
            InputMarginAtLowestGainDecibels = range.MaximumInputDecibelsU - loudest,
        };
    }
}
