namespace Athwart.Jobs.CheckTakes;

/// <summary>Probabilities as log odds, in which independent evidence adds up.</summary>
internal static class Odds
{
    /// <summary>No one piece of evidence counts more, 999 to 1.</summary>
    public const double Most = 6.9;

    /// <summary>ln(p / (1 − p)), bounded.</summary>
    public static double Of(double probability) => Math.Clamp(Math.Log(probability / (1 - probability)), -Most, Most);

    /// <summary>1 / (1 + e^−x).</summary>
    public static double ToProbability(double logOdds) => 1 / (1 + Math.Exp(-logOdds));
}
