using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Levels;

/// <summary>Says why a level cannot be told.</summary>
internal static class GainReasons
{
    public static void Recorder(Recorder recorder, List<string> reasons)
    {
        Note(recorder.MaximumInputDecibelsU, $"The maximum input level of {recorder.Name} is not known: no gains.", reasons);
        Note(recorder.MinimumGainDecibels, $"The lowest gain of {recorder.Name} is not known: no gains.", reasons);
        Note(recorder.MaximumGainDecibels, $"The highest gain of {recorder.Name} is not known: no gains.", reasons);
        Note(recorder.GainStepDecibels, $"The gain step of {recorder.Name} is not known (0 where it turns freely): no gains.", reasons);
        InputNoise(recorder, reasons);
    }

    public static void InputNoise(Recorder recorder, List<string> reasons)
        => Note(recorder.EquivalentInputNoiseDecibelsU, $"The input noise of {recorder.Name} is not known: no noise of the recording.", reasons);

    public static void Microphone(MicrophoneSetting microphone, string role, List<string> reasons)
    {
        Noise(microphone, role, reasons);
        Note(microphone.MaximumLevelDecibels, $"The maximum level of the {role} is not known: whether it overloads is not told.", reasons);
        Sensitivity(microphone, role, "no gain of its channel and no match", reasons);
    }

    public static void Noise(MicrophoneSetting microphone, string role, List<string> reasons)
        => Note(microphone.EquivalentNoiseDecibelsA, $"The noise of the {role} is not known: no noise of the recording.", reasons);

    public static void Sensitivity(MicrophoneSetting microphone, string role, string lost, List<string> reasons)
        => Note(microphone.SensitivityMillivoltsPerPascal, $"The sensitivity of the {role} is not known: {lost}.", reasons);

    private static void Note(double? figure, string text, List<string> reasons)
    {
        if (figure is null)
            reasons.Add(text);
    }
}
