namespace Athwart.Microphones.Equipment;

/// <summary>The numbers of a recorder.</summary>
/// <remarks>The bounds are common practice, read off what data sheets say; no published source. See docs/kit.md#plausible-values.</remarks>
public static class RecorderFigures
{
    /// <summary>Microphone inputs.</summary>
    public static KitFigure<Recorder> Inputs { get; } = new()
    {
        Name = "inputs",
        Unit = "",
        Member = "inputCount",
        Lowest = 1,
        Highest = 64,
        UsualLowest = 1,
        UsualHighest = 32,
        Why = "mid and side need two",
        WithoutIt = "not checked to hold a pair",
        IsWhole = true,
        Read = i => i.InputCount,
        Write = (i, v) => i with { InputCount = v is >= int.MinValue and <= int.MaxValue ? (int)v : null },
    };

    /// <summary>Equivalent input noise.</summary>
    public static KitFigure<Recorder> InputNoise { get; } = new()
    {
        Name = "input noise",
        Unit = "dBu",
        Member = "equivalentInputNoiseDecibelsU",
        Lowest = -140,
        Highest = -60,
        UsualLowest = -133,
        UsualHighest = -100,
        Why = "150 Ω at room temperature alone makes about −133 dBu A-weighted",
        WithoutIt = "the noise of the inputs is not counted",
        Read = i => i.EquivalentInputNoiseDecibelsU,
        Write = (i, v) => i with { EquivalentInputNoiseDecibelsU = v },
    };

    /// <summary>The level that reaches full scale at the lowest gain.</summary>
    public static KitFigure<Recorder> MaximumInput { get; } = new()
    {
        Name = "maximum input",
        Unit = "dBu",
        Member = "maximumInputDecibelsU",
        Lowest = -60,
        Highest = 40,
        UsualLowest = -20,
        UsualHighest = 30,
        Why = "a professional line output reaches +24 dBu",
        WithoutIt = "headroom at the input is not checked",
        Read = i => i.MaximumInputDecibelsU,
        Write = (i, v) => i with { MaximumInputDecibelsU = v },
    };

    /// <summary>The lowest gain.</summary>
    public static KitFigure<Recorder> MinimumGain { get; } = new()
    {
        Name = "minimum gain",
        Unit = "dB",
        Member = "minimumGainDecibels",
        Lowest = -60,
        Highest = 60,
        UsualLowest = -20,
        UsualHighest = 30,
        Why = "it is what the gain control reads at its lowest",
        WithoutIt = "gains are not checked to be within reach",
        Read = i => i.MinimumGainDecibels,
        Write = (i, v) => i with { MinimumGainDecibels = v },
    };

    /// <summary>The highest gain.</summary>
    public static KitFigure<Recorder> MaximumGain { get; } = new()
    {
        Name = "maximum gain",
        Unit = "dB",
        Member = "maximumGainDecibels",
        Lowest = 0,
        Highest = 110,
        UsualLowest = 20,
        UsualHighest = 90,
        Why = "microphone inputs reach 40 to 80 dB",
        WithoutIt = "gains are not checked to be within reach",
        Read = i => i.MaximumGainDecibels,
        Write = (i, v) => i with { MaximumGainDecibels = v },
    };

    /// <summary>The step of the gain control.</summary>
    public static KitFigure<Recorder> GainStep { get; } = new()
    {
        Name = "gain step",
        Unit = "dB",
        Member = "gainStepDecibels",
        Lowest = 0,
        Highest = 30,
        UsualLowest = 0,
        UsualHighest = 12,
        Why = "0 means that it turns freely",
        WithoutIt = "gains are given unrounded",
        Read = i => i.GainStepDecibels,
        Write = (i, v) => i with { GainStepDecibels = v },
    };

    /// <summary>What all inputs together can give.</summary>
    public static KitFigure<Recorder> Phantom { get; } = new()
    {
        Name = "phantom",
        Unit = "mA",
        Member = "phantomMilliamperes",
        Lowest = 0,
        Highest = 640,
        UsualLowest = 0,
        UsualHighest = 160,
        Why = "48 V phantom gives up to 10 mA an input and 0 means that there is none",
        WithoutIt = "the phantom supply is not checked",
        Read = i => i.PhantomMilliamperes,
        Write = (i, v) => i with { PhantomMilliamperes = v },
    };

    /// <summary>Hours without phantom.</summary>
    public static KitFigure<Recorder> Battery { get; } = new()
    {
        Name = "battery",
        Unit = "h",
        Member = "batteryHours",
        Lowest = 0.1,
        Highest = 500,
        UsualLowest = 1,
        UsualHighest = 100,
        Why = "a set of batteries lasts some hours",
        WithoutIt = "battery hours are not computed",
        Read = i => i.BatteryHours,
        Write = (i, v) => i with { BatteryHours = v },
    };

    /// <summary>Hours with the whole phantom current drawn.</summary>
    public static KitFigure<Recorder> BatteryWithPhantom { get; } = new()
    {
        Name = "battery with phantom",
        Unit = "h",
        Member = "batteryHoursWithPhantom",
        Lowest = 0.1,
        Highest = 500,
        UsualLowest = 0.5,
        UsualHighest = 100,
        Why = "it is measured with the whole phantom current drawn",
        WithoutIt = "battery hours with phantom are not computed",
        Read = i => i.BatteryHoursWithPhantom,
        Write = (i, v) => i with { BatteryHoursWithPhantom = v },
    };

    /// <summary>Of the card or disk.</summary>
    public static KitFigure<Recorder> Storage { get; } = new()
    {
        Name = "storage",
        Unit = "GB",
        Member = "storageGigabytes",
        Lowest = 0.01,
        Highest = 100_000,
        UsualLowest = 1,
        UsualHighest = 4000,
        Why = "a card holds some gigabytes of 10⁹ bytes",
        WithoutIt = "recording hours are not computed",
        Read = i => i.StorageGigabytes,
        Write = (i, v) => i with { StorageGigabytes = v },
    };

    /// <summary>Where files are cut.</summary>
    public static KitFigure<Recorder> Split { get; } = new()
    {
        Name = "file split",
        Unit = "GiB",
        Member = "splitGibibytes",
        Lowest = 0,
        Highest = 1024,
        UsualLowest = 0,
        UsualHighest = 4,
        Why = "recorders cut files at 2 or 4 GiB and 0 means never",
        WithoutIt = "splits of long takes are not foreseen",
        Read = i => i.SplitGibibytes,
        Write = (i, v) => i with { SplitGibibytes = v },
    };

    /// <summary>The highest sample rate.</summary>
    public static KitFigure<Recorder> MaximumRate { get; } = new()
    {
        Name = "maximum rate",
        Unit = "Hz",
        Member = "maximumRateHertz",
        Lowest = 8000,
        Highest = 1_536_000,
        UsualLowest = 44_100,
        UsualHighest = 384_000,
        Why = "it is in hertz, not kilohertz",
        WithoutIt = "not judged for recordings to be slowed down",
        Read = i => i.MaximumRateHertz,
        Write = (i, v) => i with { MaximumRateHertz = v },
    };

    /// <summary>With batteries.</summary>
    public static KitFigure<Recorder> Weight { get; } = new()
    {
        Name = "weight",
        Unit = "g",
        Member = "weightGrams",
        Lowest = 10,
        Highest = 20_000,
        UsualLowest = 50,
        UsualHighest = 5000,
        Why = "it is carried, with batteries",
        WithoutIt = "not counted in the weight of a rig",
        Read = i => i.WeightGrams,
        Write = (i, v) => i with { WeightGrams = v },
    };

    /// <summary>All, in the order of the columns.</summary>
    public static IReadOnlyList<KitFigure<Recorder>> All { get; } = [Inputs, InputNoise, MaximumInput, MinimumGain, MaximumGain, GainStep, Phantom, Battery, BatteryWithPhantom, Storage, Split, MaximumRate, Weight];
}
