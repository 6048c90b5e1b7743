namespace Athwart.Metering.LineUp;

/// <summary>A measured number with its uncertainty, or the reason why it cannot be told.</summary>
/// <param name="Value">The number; NaN when it cannot be told.</param>
/// <param name="Uncertainty">Half the width of the interval that holds the truth in 95 of 100 cases, from noise and from the agreement of the sounds; the directions are taken as exact.</param>
/// <param name="Doubt">Why it cannot be told; empty when it can.</param>
public readonly record struct Estimate(double Value, double Uncertainty, string Doubt)
{
    /// <summary>Whether there is a number.</summary>
    public bool IsKnown => Doubt is { Length: 0 };

    /// <summary>A number.</summary>
    public static Estimate Of(double value, double uncertainty) => new(value, uncertainty, "");

    /// <summary>No number.</summary>
    /// <param name="doubt">Why, as the end of the sentence 'it cannot be told: …'.</param>
    public static Estimate CannotTell(string doubt) => new(double.NaN, double.NaN, doubt);

    /// <summary>The number scaled.</summary>
    internal Estimate Times(double factor) => this with { Value = Value * factor, Uncertainty = Uncertainty * Math.Abs(factor) };
}

/// <summary>A yes or no with its probability, or the reason why it cannot be told.</summary>
/// <param name="Answer">The likelier answer.</param>
/// <param name="Probability">Of the answer, 0.5 to 0.999.</param>
/// <param name="Doubt">Why it cannot be told; empty when it can.</param>
public readonly record struct Verdict(bool Answer, double Probability, string Doubt)
{
    /// <summary>Whether there is an answer.</summary>
    public bool IsKnown => Doubt is { Length: 0 };

    /// <summary>No answer.</summary>
    public static Verdict CannotTell(string doubt) => new(false, 0.5, doubt);

    /// <summary>From log odds for yes; below 0.9 nothing is claimed.</summary>
    internal static Verdict FromOdds(double logOdds, string doubt)
    {
        var probability = Math.Min(0.999, 1 / (1 + Math.Exp(-Math.Abs(logOdds))));
        return new(logOdds > 0, probability, probability < 0.9 ? doubt : "");
    }
}
