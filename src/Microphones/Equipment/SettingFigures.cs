namespace Athwart.Microphones.Equipment;

/// <summary>The numbers that go with a pattern of a microphone.</summary>
/// <remarks>The bounds are common practice, read off what data sheets say; no published source. See docs/kit.md#plausible-values.</remarks>
public static class SettingFigures
{
    /// <summary>Open-circuit sensitivity.</summary>
    public static KitFigure<MicrophoneSetting> Sensitivity { get; } = new()
    {
        Name = "sensitivity",
        Unit = "mV/Pa",
        Member = "sensitivityMillivoltsPerPascal",
        Lowest = 0.1,
        Highest = 200,
        UsualLowest = 0.5,
        UsualHighest = 100,
        Why = "a ribbon gives about 1 mV/Pa and the most sensitive condenser about 100",
        WithoutIt = "gains and noise of a pair are not computed",
        Read = s => s.SensitivityMillivoltsPerPascal,
        Write = (s, v) => s with { SensitivityMillivoltsPerPascal = v },
    };

    /// <summary>Equivalent noise level.</summary>
    public static KitFigure<MicrophoneSetting> Noise { get; } = new()
    {
        Name = "noise",
        Unit = "dBA",
        Member = "equivalentNoiseDecibelsA",
        Lowest = 0,
        Highest = 60,
        UsualLowest = 4,
        UsualHighest = 36,
        Why = "the quietest large capsule reads about 5 dBA and a tiny one about 35",
        WithoutIt = "not ranked by noise",
        Read = s => s.EquivalentNoiseDecibelsA,
        Write = (s, v) => s with { EquivalentNoiseDecibelsA = v },
    };

    /// <summary>Highest sound pressure level.</summary>
    public static KitFigure<MicrophoneSetting> MaximumLevel { get; } = new()
    {
        Name = "maximum level",
        Unit = "dB SPL",
        Member = "maximumLevelDecibels",
        Lowest = 80,
        Highest = 190,
        UsualLowest = 110,
        UsualHighest = 160,
        Why = "air itself is bent out of shape near 190 dB SPL and makers seldom state less than 110",
        WithoutIt = "headroom at the microphone is not checked",
        Read = s => s.MaximumLevelDecibels,
        Write = (s, v) => s with { MaximumLevelDecibels = v },
    };

    /// <summary>Where the low end is 3 dB down.</summary>
    public static KitFigure<MicrophoneSetting> LowEnd { get; } = new()
    {
        Name = "low end",
        Unit = "Hz",
        Member = "lowHertz",
        Lowest = 0.1,
        Highest = 5000,
        UsualLowest = 3,
        UsualHighest = 300,
        Why = "it is the frequency where the low end is 3 dB down",
        WithoutIt = "the pair is not followed down in frequency",
        Read = s => s.LowHertz,
        Write = (s, v) => s with { LowHertz = v },
    };

    /// <summary>Where the high end is 3 dB down.</summary>
    public static KitFigure<MicrophoneSetting> HighEnd { get; } = new()
    {
        Name = "high end",
        Unit = "Hz",
        Member = "highHertz",
        Lowest = 1000,
        Highest = 250_000,
        UsualLowest = 8000,
        UsualHighest = 100_000,
        Why = "it is the frequency in hertz, not kilohertz, where the high end is 3 dB down",
        WithoutIt = "not judged for recordings to be slowed down",
        Read = s => s.HighHertz,
        Write = (s, v) => s with { HighHertz = v },
    };

    /// <summary>All, in the order of the columns.</summary>
    public static IReadOnlyList<KitFigure<MicrophoneSetting>> All { get; } = [Sensitivity, Noise, MaximumLevel, LowEnd, HighEnd];
}
