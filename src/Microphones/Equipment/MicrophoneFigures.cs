namespace Athwart.Microphones.Equipment;

/// <summary>The numbers of a microphone that do not depend on its pattern.</summary>
/// <remarks>The bounds are common practice, read off what data sheets say; no published source. See docs/kit.md#plausible-values.</remarks>
public static class MicrophoneFigures
{
    /// <summary>What one draws of the phantom supply.</summary>
    public static KitFigure<Microphone> Phantom { get; } = new()
    {
        Name = "phantom",
        Unit = "mA",
        Member = "phantomMilliamperes",
        Lowest = 0,
        Highest = 20,
        UsualLowest = 0,
        UsualHighest = 10,
        Why = "48 V phantom gives 10 mA at most and 0 means that it takes none",
        WithoutIt = "phantom draw and battery hours are not computed",
        Read = i => i.PhantomMilliamperes,
        Write = (i, v) => i with { PhantomMilliamperes = v },
    };

    /// <summary>Along the body.</summary>
    public static KitFigure<Microphone> Length { get; } = new()
    {
        Name = "length",
        Unit = "mm",
        Member = "lengthMillimetres",
        Lowest = 5,
        Highest = 1000,
        UsualLowest = 10,
        UsualHighest = 600,
        Why = "a miniature capsule is about 10 mm long and a long shotgun about 500",
        WithoutIt = "not checked to fit a wind protection",
        Read = i => i.LengthMillimetres,
        Write = (i, v) => i with { LengthMillimetres = v },
    };

    /// <summary>At the widest place.</summary>
    public static KitFigure<Microphone> Diameter { get; } = new()
    {
        Name = "diameter",
        Unit = "mm",
        Member = "diameterMillimetres",
        Lowest = 2,
        Highest = 250,
        UsualLowest = 4,
        UsualHighest = 80,
        Why = "a miniature capsule is about 5 mm across and a large studio body about 60",
        WithoutIt = "not checked to fit a wind protection",
        Read = i => i.DiameterMillimetres,
        Write = (i, v) => i with { DiameterMillimetres = v },
    };

    /// <summary>Of one.</summary>
    public static KitFigure<Microphone> Weight { get; } = new()
    {
        Name = "weight",
        Unit = "g",
        Member = "weightGrams",
        Lowest = 0.5,
        Highest = 5000,
        UsualLowest = 2,
        UsualHighest = 1000,
        Why = "a miniature capsule weighs some grams and a large studio body under a kilogram",
        WithoutIt = "not counted in the weight of a rig",
        Read = i => i.WeightGrams,
        Write = (i, v) => i with { WeightGrams = v },
    };

    /// <summary>How many there are.</summary>
    public static KitFigure<Microphone> Count { get; } = new()
    {
        Name = "count",
        Unit = "",
        Member = "count",
        Lowest = 1,
        Highest = 1000,
        UsualLowest = 1,
        UsualHighest = 24,
        Why = "one row stands for one kind of microphone",
        IsWhole = true,
        Read = i => i.Count,
        Write = (i, v) => i with { Count = v is >= int.MinValue and <= int.MaxValue ? (int)v : 1 },
    };

    /// <summary>All, in the order of the columns.</summary>
    public static IReadOnlyList<KitFigure<Microphone>> All { get; } = [Phantom, Length, Diameter, Weight, Count];
}
