using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>An invented kit, as a recordist might own and consider it. No such thing is for sale; the figures are plausible and no more.</summary>
public static class DemoKit
{
    // Supercardioid up to 1 kHz, then the tube narrows the front and the rear falls away in lobes.
    private const string ShotgunTable =
        "measured 250 Hz: 0=0 30=-0.8 60=-3.4 90=-8.7 120=-26 150=-14.8inv 180=-11.4inv"
        + " | 1000 Hz: 0=0 30=-0.9 60=-4 90=-10 120=-24 150=-15inv 180=-12inv"
        + " | 4000 Hz: 0=0 30=-3 60=-11 90=-18 120=-22 150=-18inv 180=-16inv"
        + " | 12000 Hz: 0=0 30=-9 60=-19 90=-25 120=-27 150=-24inv 180=-21inv";

    /// <summary>16 microphones, 3 recorders, 3 wind protections.</summary>
    public static Kit Kit { get; } = new()
    {
        Microphones =
        [
            Body("small cardioid A", 140, 3, 105, 20, 75, Setting("cardioid", 14, 16, 134, 30, 20_000)) with { Owned = true, Count = 2, Notes = "Bought as a pair." },
            Body("short shotgun B", 260, 2, 182, 21, 140, Setting("supercardioid", 20, 16, 130, 60, 18_000)) with { Owned = true },
            Body("reporter's cardioid", 60, 0, 180, 50, 290, Setting("cardioid", 1.8, null, null, 70, 14_000)) with { Owned = true, Notes = "Moving coil; no noise figure was ever given." },
            Body("small cardioid B", 390, 4, 115, 21, 90, Setting("cardioid", 15, 11, 136, 25, 20_000)),
            Body("small supercardioid", 330, 3, 110, 20, 80, Setting("supercardioid", 16, 14, 134, 40, 20_000)),
            Body("wide cardioid", 410, 4, 115, 21, 90, Setting("subcardioid", 13, 13, 136, 20, 20_000)),
            Body("small omni", 280, 3, 105, 20, 75, Setting("omni", 16, 14, 134, 12, 20_000)),
            Body("omni to 100 kHz", 640, 4, 88, 12, 45, Setting("omni", 4, 24, 148, 20, 100_000)) with { Notes = "For sounds that will be slowed down." },
            Body("short shotgun A", 780, 2.5, 250, 19, 165, Setting(ShotgunTable, 32, 13, 131, 40, 20_000)) with { Notes = "The pattern is measured." },
            Body("long shotgun", 990, 3.5, 405, 19, 210, Setting("hypercardioid", 50, 11, 126, 40, 20_000)),
            Body("small figure-8 A", 860, 4, 98, 21, 85, Setting("figure-8", 11, 17, 134, 40, 18_000)),
            Body("small figure-8 B", 520, 3, 102, 22, 92, Setting("figure-8", 8, 21, 132, 55, 16_000)),
            Body("ribbon figure-8", 430, 0, 155, 38, 390, Setting("figure-8", 1.7, 19, 138, 30, 15_000)) with { Notes = "Needs much gain; keep wind away from it." },
            Body("second-hand figure-8", null, null, 130, 26, null, Setting("figure-8", 9, null, null, 60, 15_000)) with { Notes = "No data sheet came with it." },
            Body("studio multi-pattern", 740, 5, 188, 54, 480, Setting("omni", 20, 9, 136, 20, 18_000, "omni"), Setting("cardioid", 22, 8, 136, 25, 18_000, "cardioid"), Setting("figure-8", 20, 9, 136, 30, 17_000, "figure-8")),
            Body("capsule body", 690, 4, 125, 21, 110, Setting("cardioid", 15, 13, 135, 30, 20_000, "cardioid"), Setting("hypercardioid", 14, 14, 135, 40, 20_000, "hypercardioid"), Setting("omni", 16, 12, 135, 15, 20_000, "omni")),
        ],
        Recorders =
        [
            new()
            {
                Name = "pocket recorder", InputCount = 2, EquivalentInputNoiseDecibelsU = -119, MaximumInputDecibelsU = 2, MinimumGainDecibels = 8, MaximumGainDecibels = 56, GainStepDecibels = 4,
                PhantomMilliamperes = 12, BatteryHours = 9, BatteryHoursWithPhantom = 4.5, StorageGigabytes = 64, SplitGibibytes = 2, MaximumRateHertz = 96_000, DecodesForMonitoring = false,
                WeightGrams = 290, Price = Euro(270), Owned = true, Notes = "The mid is heard alone.",
            },
            new()
            {
                Name = "four-input recorder", InputCount = 4, EquivalentInputNoiseDecibelsU = -127, MaximumInputDecibelsU = 10, MinimumGainDecibels = 6, MaximumGainDecibels = 70, GainStepDecibels = 1,
                PhantomMilliamperes = 40, BatteryHours = 8, BatteryHoursWithPhantom = 5, StorageGigabytes = 256, SplitGibibytes = 4, MaximumRateHertz = 192_000, DecodesForMonitoring = true,
                WeightGrams = 720, Price = Euro(690),
            },
            new()
            {
                Name = "six-input recorder", InputCount = 6, EquivalentInputNoiseDecibelsU = -129.5, MaximumInputDecibelsU = 22, MinimumGainDecibels = 0, MaximumGainDecibels = 76, GainStepDecibels = 0,
                PhantomMilliamperes = 60, BatteryHours = 10, BatteryHoursWithPhantom = 6, StorageGigabytes = 512, SplitGibibytes = 0, MaximumRateHertz = 192_000, DecodesForMonitoring = true,
                WeightGrams = 1150, Price = Euro(1480),
            },
        ],
        Protections =
        [
            new() { Name = "short cage", InnerLengthMillimetres = 210, InnerDiameterMillimetres = 95, WeightGrams = 340, LowFrequencyLossDecibels = 1, Price = Euro(240), Owned = true, Notes = "With fur." },
            new() { Name = "long cage", InnerLengthMillimetres = 430, InnerDiameterMillimetres = 100, WeightGrams = 620, LowFrequencyLossDecibels = 1.5, Price = Euro(410) },
            new() { Name = "foam for a small pair", InnerLengthMillimetres = 120, InnerDiameterMillimetres = 60, WeightGrams = 60, LowFrequencyLossDecibels = 0.5, Price = Euro(45), Notes = "For a breeze, not for wind." },
        ],
    };

    private static Price Euro(decimal amount) => new(amount, "EUR");

    private static Microphone Body(string name, decimal? price, double? phantom, double length, double diameter, double? weight, params MicrophoneSetting[] settings) => new()
    {
        Name = name,
        Settings = settings,
        PhantomMilliamperes = phantom,
        LengthMillimetres = length,
        DiameterMillimetres = diameter,
        WeightGrams = weight,
        Price = price is { } amount ? Euro(amount) : null,
    };

    private static MicrophoneSetting Setting(string pattern, double sensitivity, double? noise, double? maximum, double low, double high, string label = "") => new()
    {
        Label = label,
        Pattern = PatternText.TryParse(pattern, out var known, out var rule) ? known : throw new InvalidOperationException(rule),
        SensitivityMillivoltsPerPascal = sensitivity,
        EquivalentNoiseDecibelsA = noise,
        MaximumLevelDecibels = maximum,
        LowHertz = low,
        HighHertz = high,
    };
}
