namespace Athwart.Accuracy;

/// <summary>Calibration of the probabilities that a pair is swapped or decoded.</summary>
internal static class PairRun
{
    public static void Run(Options options) => Console.WriteLine($"not measured yet: {options.Scenes}");
}
