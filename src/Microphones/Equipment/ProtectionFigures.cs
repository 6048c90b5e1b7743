namespace Athwart.Microphones.Equipment;

/// <summary>The numbers of a wind protection.</summary>
/// <remarks>The bounds are common practice, read off what data sheets say; no published source. See docs/kit.md#plausible-values.</remarks>
public static class ProtectionFigures
{
    /// <summary>Room along the mid's axis.</summary>
    public static KitFigure<WindProtection> InnerLength { get; } = new()
    {
        Name = "inner length",
        Unit = "mm",
        Member = "innerLengthMillimetres",
        Lowest = 20,
        Highest = 2000,
        UsualLowest = 60,
        UsualHighest = 800,
        Why = "it must hold the longer of the two microphones",
        WithoutIt = "microphones are not checked to fit",
        Read = i => i.InnerLengthMillimetres,
        Write = (i, v) => i with { InnerLengthMillimetres = v },
    };

    /// <summary>Room across.</summary>
    public static KitFigure<WindProtection> InnerDiameter { get; } = new()
    {
        Name = "inner diameter",
        Unit = "mm",
        Member = "innerDiameterMillimetres",
        Lowest = 10,
        Highest = 600,
        UsualLowest = 30,
        UsualHighest = 250,
        Why = "it must hold both microphones, one above the other",
        WithoutIt = "microphones are not checked to fit",
        Read = i => i.InnerDiameterMillimetres,
        Write = (i, v) => i with { InnerDiameterMillimetres = v },
    };

    /// <summary>Of the whole.</summary>
    public static KitFigure<WindProtection> Weight { get; } = new()
    {
        Name = "weight",
        Unit = "g",
        Member = "weightGrams",
        Lowest = 1,
        Highest = 10_000,
        UsualLowest = 10,
        UsualHighest = 3000,
        Why = "it is carried on a pole or a stand",
        WithoutIt = "not counted in the weight of a rig",
        Read = i => i.WeightGrams,
        Write = (i, v) => i with { WeightGrams = v },
    };

    /// <summary>What it takes from the low end at 100 Hz.</summary>
    public static KitFigure<WindProtection> LowLoss { get; } = new()
    {
        Name = "low loss",
        Unit = "dB",
        Member = "lowFrequencyLossDecibels",
        Lowest = 0,
        Highest = 40,
        UsualLowest = 0,
        UsualHighest = 12,
        Why = "it is a loss at 100 Hz and written as 0 or more",
        WithoutIt = "its loss at low frequencies is not counted",
        Read = i => i.LowFrequencyLossDecibels,
        Write = (i, v) => i with { LowFrequencyLossDecibels = v },
    };

    /// <summary>All, in the order of the columns.</summary>
    public static IReadOnlyList<KitFigure<WindProtection>> All { get; } = [InnerLength, InnerDiameter, Weight, LowLoss];
}
