using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Levels;

/// <summary>Invented equipment for these tests.</summary>
internal static class Demo
{
    public static MicrophoneSetting Mid { get; } = new()
    {
        Pattern = FirstOrderPattern.Cardioid,
        SensitivityMillivoltsPerPascal = 20,
        EquivalentNoiseDecibelsA = 14,
        MaximumLevelDecibels = 130,
    };

    public static MicrophoneSetting Side { get; } = new()
    {
        Pattern = FirstOrderPattern.FigureEight,
        SensitivityMillivoltsPerPascal = 12.5,
        EquivalentNoiseDecibelsA = 18,
        MaximumLevelDecibels = 134,
    };

    public static Recorder Recorder { get; } = new()
    {
        Name = "two inputs",
        InputCount = 2,
        EquivalentInputNoiseDecibelsU = -124,
        MaximumInputDecibelsU = 10,
        MinimumGainDecibels = 10,
        MaximumGainDecibels = 70,
        GainStepDecibels = 1,
        PhantomMilliamperes = 20,
        BatteryHours = 10,
        BatteryHoursWithPhantom = 5,
        StorageGigabytes = 32,
        SplitGibibytes = 2,
        MaximumRateHertz = 96_000,
    };
}
