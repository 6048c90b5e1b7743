using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Choosing;

/// <summary>Invented microphones whose every figure is known, to be changed one at a time.</summary>
internal static class SmallKit
{
    public static Microphone Microphone(string name, IPattern pattern, decimal price = 200, double noise = 14, bool owned = false) => new()
    {
        Name = name,
        Price = new(price, "EUR"),
        Owned = owned,
        WeightGrams = 100,
        LengthMillimetres = 120,
        DiameterMillimetres = 20,
        PhantomMilliamperes = 2,
        Settings =
        [
            new() { Pattern = pattern, SensitivityMillivoltsPerPascal = 20, EquivalentNoiseDecibelsA = noise, MaximumLevelDecibels = 130, LowHertz = 40, HighHertz = 20_000 },
        ],
    };

    public static Microphone With(this Microphone microphone, Func<MicrophoneSetting, MicrophoneSetting> change) =>
        microphone with { Settings = [.. microphone.Settings.Select(change)] };

    public static Recorder Recorder(string name = "R1") => new()
    {
        Name = name,
        Owned = true,
        InputCount = 2,
        EquivalentInputNoiseDecibelsU = -127,
        MaximumInputDecibelsU = 4,
        MinimumGainDecibels = 0,
        MaximumGainDecibels = 60,
        GainStepDecibels = 1,
        PhantomMilliamperes = 20,
        MaximumRateHertz = 96_000,
        DecodesForMonitoring = false,
    };

    /// <summary>A cardioid and a figure-8.</summary>
    public static Kit Pair { get; } = new()
    {
        Microphones = [Microphone("mid", FirstOrderPattern.Cardioid), Microphone("side", FirstOrderPattern.FigureEight, 400)],
        Recorders = [Recorder()],
    };
}
