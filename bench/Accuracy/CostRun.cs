namespace Athwart.Accuracy;

/// <summary>What each part of the check costs.</summary>
internal static class CostRun
{
    public static void Run() => Console.WriteLine("not measured yet");
}
