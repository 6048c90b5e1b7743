using Athwart.Jobs.PlanRig;
using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.LineUp;

/// <summary>What of the kit a line-up was recorded with.</summary>
/// <param name="Kit">Where names are looked up.</param>
/// <param name="MidMicrophone">The mid's name in the kit; null when not said.</param>
/// <param name="SideMicrophone">The side's.</param>
/// <param name="Recorder">The recorder's.</param>
/// <param name="MidGainDecibels">The gain of the mid's input.</param>
/// <param name="SideGainDecibels">The gain of the side's input.</param>
public sealed record LineUpKit(Kit Kit, string? MidMicrophone = null, string? SideMicrophone = null, string? Recorder = null, double? MidGainDecibels = null, double? SideGainDecibels = null)
{
    private const double PatternHertz = 2000;

    /// <summary>Nothing said.</summary>
    public static LineUpKit None { get; } = new(Kit.Empty);

    /// <summary>A of the mid's pattern, from a word, a number from 0 to 1, or a microphone of the kit.</summary>
    /// <remarks>Of a measured pattern: what it hears of the sides against the front, at 2 kHz, which is what a line-up rests on.</remarks>
    /// <exception cref="JobException">It is none of these.</exception>
    public double PatternOf(string text)
    {
        if (Find(text) is { } choice)
            return OmniShare(choice.Setting.Pattern);
        if (PatternNames.TryParse(text, out var pattern))
            return pattern.OmniShare;
        var hint = Kit.Microphones.Count == 0 ? "For a microphone's name, say where the kit is: --kit DIR or --demo-kit." : $"The kit has {string.Join(", ", MicrophoneChoice.All(Kit).Select(c => $"'{c.Name}'").Take(6))}.";
        throw new JobException(JobErrorKind.WrongUse, $"'{text}' is no pattern and no microphone of the kit.", $"{char.ToUpperInvariant(PatternNames.Remedy[0])}{PatternNames.Remedy[1..]}. {hint}");
    }

    /// <summary>A of the mid that is named; null when none is.</summary>
    public double? MidPattern => MidMicrophone is { } name ? PatternOf(name) : null;

    /// <summary>What full scale stands for in each channel.</summary>
    /// <exception cref="JobException">A name is not in the kit, or a figure that is asked for is not known.</exception>
    public (InputScale? Mid, InputScale? Side) Scales()
    {
        if (Recorder is null)
            return MidGainDecibels is null && SideGainDecibels is null ? (null, null) : throw new JobException(JobErrorKind.WrongUse, "A gain says nothing without the recorder it was set on.", "Name it with --recorder.");
        var recorder = RigResolver.Named(Recorder, Kit.Recorders, r => r.Name, "recorder")!;
        return (Scale(recorder, MidMicrophone, MidGainDecibels, "mid"), Scale(recorder, SideMicrophone, SideGainDecibels, "side"));
    }

    private InputScale? Scale(Recorder recorder, string? microphone, double? gain, string role)
    {
        if (gain is not { } decibels)
            return microphone is null ? null : throw new JobException(JobErrorKind.WrongUse, $"The gain of the {role} is missing.", $"Give --{role}-gain in decibels, as it was set on '{recorder.Name}'.");
        if (recorder is not { MaximumInputDecibelsU: { } maximum, MinimumGainDecibels: { } lowest })
            throw new JobException(JobErrorKind.WrongUse, $"The kit does not know the maximum input level and the lowest gain of '{recorder.Name}'.", $"Add them to the kit, or give --{role}-full-scale.");
        if (decibels < lowest || decibels > recorder.MaximumGainDecibels)
            throw new JobException(JobErrorKind.WrongUse, FormattableString.Invariant($"'{recorder.Name}' has no gain of {decibels:0.#} dB."), FormattableString.Invariant($"It goes from {lowest:0.#} to {recorder.MaximumGainDecibels:0.#} dB."));
        var full = InputLevels.FullScaleDecibelsU(maximum, lowest, decibels);
        var sensitivity = microphone is null ? null : (Find(microphone) ?? throw new JobException(JobErrorKind.WrongUse, $"The kit has no microphone '{microphone}'.", "'kit list' shows what there is.")).Setting.SensitivityMillivoltsPerPascal;
        return new(full, sensitivity is { } mv ? MicrophoneLevels.SoundDecibels(mv, full) : null);
    }

    private MicrophoneChoice? Find(string name) =>
        MicrophoneChoice.All(Kit).FirstOrDefault(c => c.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
        ?? MicrophoneChoice.All(Kit).FirstOrDefault(c => c.Microphone.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    private static double OmniShare(IPattern pattern) => pattern is FirstOrderPattern first
        ? first.OmniShare
        : Math.Clamp(Math.Abs(pattern.Gain(Math.PI / 2, PatternHertz) / pattern.Gain(0, PatternHertz)), 0, 1);
}

/// <summary>What a full-scale sine stands for at an input.</summary>
/// <param name="InputDecibelsU">Its level at the input in dBu.</param>
/// <param name="SoundDecibels">The sound on the microphone's axis that makes it, in dB SPL; null when the sensitivity is not known.</param>
public readonly record struct InputScale(double InputDecibelsU, double? SoundDecibels);
