using System.Globalization;

namespace Athwart.Microphones.Equipment;

/// <summary>What is known of one number of the kit: its name, its unit, which values can be and which are usual.</summary>
public abstract record KitFigure
{
    /// <summary>In words, such as 'maximum level'.</summary>
    public required string Name { get; init; }

    /// <summary>Such as 'mV/Pa'; empty for a plain number.</summary>
    public required string Unit { get; init; }

    /// <summary>Its member in the JSON of a kit.</summary>
    public required string Member { get; init; }

    /// <summary>Below this no such thing exists.</summary>
    public required double Lowest { get; init; }

    /// <summary>Above this no such thing exists.</summary>
    public required double Highest { get; init; }

    /// <summary>Below this a value is accepted and remarked on.</summary>
    public required double UsualLowest { get; init; }

    /// <summary>Above this a value is accepted and remarked on.</summary>
    public required double UsualHighest { get; init; }

    /// <summary>Why these bounds, half a sentence.</summary>
    public required string Why { get; init; }

    /// <summary>What cannot be answered when it is not known; null when nothing is lost.</summary>
    public string? WithoutIt { get; init; }

    /// <summary>Whether it counts things.</summary>
    public bool IsWhole { get; init; }

    /// <summary>Its column in CSV, the name and the unit.</summary>
    public string Column => Unit.Length == 0 ? Name : $"{Name} {Unit}";

    /// <summary>'0.1 to 200 mV/Pa'.</summary>
    public string Range => Between(Lowest, Highest);

    /// <summary>'0.5 to 100 mV/Pa'.</summary>
    public string UsualRange => Between(UsualLowest, UsualHighest);

    /// <summary>What there is to say about a value, or null when it is usual or not known.</summary>
    public KitRemark? Judge(double? value)
    {
        if (value is not { } known)
            return null;
        if (!(known >= Lowest && known <= Highest) || (IsWhole && known != Math.Floor(known)))
            return KitRemark.Impossible(Name, $"{Text(known)} cannot be: {(IsWhole ? "a whole number from " : "")}{Range} is plausible, as {Why}.", "Check the number and its unit, or leave it empty when it is not known.");
        return known >= UsualLowest && known <= UsualHighest
            ? null
            : KitRemark.Unusual(Name, $"{Text(known)} is unusual: {UsualRange} is what is met with, as {Why}.", "Check it against the data sheet.");
    }

    /// <summary>A value with its unit, invariant culture.</summary>
    public string Text(double value) => string.Create(CultureInfo.InvariantCulture, $"{Name} {value} {Unit}").TrimEnd();

    private string Between(double low, double high) => string.Create(CultureInfo.InvariantCulture, $"{low} to {high} {Unit}").TrimEnd();
}

/// <summary>A number that a thing of the kit has.</summary>
/// <typeparam name="T">The thing.</typeparam>
public sealed record KitFigure<T> : KitFigure
{
    /// <summary>Reads it; null when not known.</summary>
    public required Func<T, double?> Read { get; init; }

    /// <summary>The thing with another value.</summary>
    public required Func<T, double?, T> Write { get; init; }
}
