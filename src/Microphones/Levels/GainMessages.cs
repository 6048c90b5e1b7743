using System.Globalization;

namespace Athwart.Microphones.Levels;

/// <summary>Puts a gain plan's warnings in words.</summary>
internal static class GainMessages
{
    /// <summary>Less than this above the noise is called near it; common practice, no source.</summary>
    private const double NearDecibels = 10;

    public static IEnumerable<GainMessage> For(GainPlanRequest request, ChannelGain mid, ChannelGain side)
        => For(request, mid, "mid").Concat(For(request, side, "side"));

    private static IEnumerable<GainMessage> For(GainPlanRequest request, ChannelGain channel, string role)
    {
        if (channel.MicrophoneMarginDecibels is < 0 and var over)
            yield return Say(GainMessageKind.MicrophoneOverload, role, -over, "the loudest peak is {0} dB above the microphone's maximum level: go further away, or use a pad on its body or another microphone; no gain helps");
        if (channel.QuietestAboveNoiseDecibels is { } above and < NearDecibels)
            yield return above < 0
                ? Say(GainMessageKind.BelowNoise, role, -above, "the quietest wanted sound is {0} dB below the noise: go nearer or use a quieter microphone")
                : Say(GainMessageKind.NearNoise, role, above, "the quietest wanted sound is only {0} dB above the noise: go nearer or use a quieter microphone");
        if (channel.GainDecibels is not null && InputMessage(request, channel, role) is { } message)
            yield return message;
    }

    private static GainMessage? InputMessage(GainPlanRequest request, ChannelGain channel, string role)
    {
        var margin = channel.InputMarginAtLowestGainDecibels!.Value;
        var shortBy = request.HeadroomDecibels - margin;
        var spare = channel.LimitDecibels!.Value - request.Recorder.MaximumGainDecibels!.Value;
        return (margin, shortBy, spare) switch
        {
            ( < 0, _, _) => Say(GainMessageKind.InputOverload, role, -margin, "the input clips by {0} dB even at the lowest gain: a pad of at least {1} dB before it keeps the headroom; or go further away, or use a less sensitive microphone", shortBy),
            (_, > 1e-9, _) => Say(GainMessageKind.HeadroomShort, role, shortBy, "the lowest gain keeps {0} dB less headroom than wanted: use a pad before the input, or go further away"),
            (_, _, > 1e-9) => Say(GainMessageKind.GainShort, role, spare, "the highest gain is {0} dB lower than the headroom allows: raise the level afterwards; a more sensitive microphone or a shorter distance would fill the range"),
            _ => null,
        };
    }

    private static GainMessage Say(GainMessageKind kind, string role, double decibels, string format, double second = 0)
        => new(kind, role, decibels, role + ": " + string.Format(CultureInfo.InvariantCulture, format, Shown(decibels), Shown(second)));

    private static string Shown(double decibels) => decibels.ToString("0.0", CultureInfo.InvariantCulture);
}
