namespace Athwart.Microphones.Levels;

/// <summary>Both channels at one gain, as on a recorder whose inputs are linked: the lower of the two.</summary>
/// <param name="GainDecibels">The gain in dB.</param>
/// <param name="TrimDecibels">What the decode then adds to the side, in dB: the whole match of the sensitivities.</param>
/// <param name="MidUnusedDecibels">How far the mid stays below the gain it could have, in dB, 0 or more.</param>
/// <param name="SideUnusedDecibels">How far the side stays below the gain it could have, in dB, 0 or more.</param>
/// <remarks>
/// The noise of an input is taken as the same at each gain, as the kit gives one figure at high gain. Then a gain left unused costs
/// no noise but that of the converter, which comes nearer by as many decibels; real inputs get a little noisier at low gain.
/// </remarks>
public sealed record SharedGain(double GainDecibels, double TrimDecibels, double MidUnusedDecibels, double SideUnusedDecibels)
{
    internal static SharedGain? For(GainPlanRequest request, ChannelGain mid, ChannelGain side, double? match)
    {
        if (mid.GainDecibels is not { } midGain || side.GainDecibels is not { } sideGain || match is not { } trim)
            return null;
        var tooLoud = mid.LimitDecibels < request.Recorder.MinimumGainDecibels || side.LimitDecibels < request.Recorder.MinimumGainDecibels;
        if (tooLoud)
            return null;
        var gain = Math.Min(midGain, sideGain);
        return new(gain, trim, midGain - gain, sideGain - gain);
    }
}
