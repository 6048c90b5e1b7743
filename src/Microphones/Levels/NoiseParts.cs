using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>The four noises of a rig, each in dBA as sound at its own microphone, null when not known.</summary>
internal sealed class NoiseParts(MicrophoneSetting mid, MicrophoneSetting side, Recorder? recorder, double sideLevel)
{
    private readonly double? _midMicrophone = mid.EquivalentNoiseDecibelsA;
    private readonly double? _sideMicrophone = side.EquivalentNoiseDecibelsA;
    private readonly double? _midInput = InputAsSound(mid, recorder);
    private readonly double? _sideInput = InputAsSound(side, recorder);

    public double? Mid { get; } = Sum(mid.EquivalentNoiseDecibelsA, InputAsSound(mid, recorder));

    public double? Side { get; } = Sum(side.EquivalentNoiseDecibelsA, InputAsSound(side, recorder));

    // With no side at all its noise does not matter, known or not.
    public double? LeftRight => double.IsNegativeInfinity(sideLevel) ? Mid : Sum(Mid, Side + sideLevel);

    public bool? MicrophonesDominate
        => LeftRight is null || recorder is null ? null : Sum(_midMicrophone, Scaled(_sideMicrophone)) > Sum(_midInput, Scaled(_sideInput));

    public IReadOnlyList<NoisePart> Known()
    {
        (NoiseOrigin Origin, double? Level)[] all =
        [
            (NoiseOrigin.MidMicrophone, _midMicrophone),
            (NoiseOrigin.MidInput, recorder is null ? null : _midInput),
            (NoiseOrigin.SideMicrophone, Scaled(_sideMicrophone)),
            (NoiseOrigin.SideInput, recorder is null ? null : Scaled(_sideInput)),
        ];
        return [.. all.Where(part => part.Level is not null).Select(part => new NoisePart(part.Origin, part.Level!.Value))];
    }

    public IReadOnlyList<string> Reasons()
    {
        var reasons = new List<string>();
        GainReasons.Noise(mid, "mid", reasons);
        GainReasons.Noise(side, "side", reasons);
        if (recorder is null)
            return reasons;
        GainReasons.InputNoise(recorder, reasons);
        GainReasons.Sensitivity(mid, "mid", "the input's noise cannot be told as sound", reasons);
        GainReasons.Sensitivity(side, "side", "the input's noise cannot be told as sound", reasons);
        return reasons;
    }

    private double? Scaled(double? level) => double.IsNegativeInfinity(sideLevel) ? double.NegativeInfinity : level + sideLevel;

    private static double? InputAsSound(MicrophoneSetting microphone, Recorder? recorder)
        => recorder is null ? double.NegativeInfinity
            : microphone.SensitivityMillivoltsPerPascal is { } sensitivity && recorder.EquivalentInputNoiseDecibelsU is { } noise
                ? MicrophoneLevels.SoundDecibels(sensitivity, noise)
                : null;

    private static double? Sum(double? first, double? second)
        => first is { } one && second is { } two ? SoundPressure.PowerSum(one, two) : null;
}
