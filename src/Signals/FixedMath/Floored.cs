namespace Athwart.Signals.FixedMath;

/// <summary>Division of frame numbers that may lie before the start of the take, rounded down.</summary>
internal static class Floored
{
    /// <summary>⌊number/divisor⌋.</summary>
    public static long Quotient(long number, int divisor) => (number - Rest(number, divisor)) / divisor;

    /// <summary>What is left, 0 to divisor − 1.</summary>
    public static long Rest(long number, int divisor)
    {
        var rest = number % divisor;
        return rest < 0 ? rest + divisor : rest;
    }
}
