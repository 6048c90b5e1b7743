namespace Athwart.Scenes.Numbers;

/// <summary>Chance with a fixed outcome: the same seed gives the same numbers.</summary>
/// <remarks>A 64-bit counter stepped by the golden ratio and mixed (splitmix64, Steele, Lea and Flood 2014, constants from memory).</remarks>
internal sealed class Chance(ulong seed)
{
    private readonly ulong _seed = seed;
    private ulong _state = seed;
    private double? _spare;

    /// <summary>The next 64 bits.</summary>
    public ulong Bits() => Mix(_state += 0x9E3779B97F4A7C15);

    /// <summary>Another stream of chance by name: what one part draws leaves the others as they were.</summary>
    public Chance Fork(string name, int number = 0)
    {
        var hash = 0xCBF29CE484222325UL; // Fowler, Noll and Vo, 64 bits
        foreach (var letter in name)
            hash = (hash ^ letter) * 0x100000001B3;
        return new(Mix(Mix(_seed ^ hash) + (ulong)number));
    }

    /// <summary>Even from 0 to below 1.</summary>
    public double Unit() => (Bits() >> 11) * (1.0 / 9007199254740992);

    /// <summary>Even between two values.</summary>
    public double Between(double low, double high) => low + ((high - low) * Unit());

    /// <summary>Between two values, even in their logarithm.</summary>
    public double Ratio(double low, double high) => low * Math.Pow(high / low, Unit());

    /// <summary>Normal, mean 0, power 1.</summary>
    /// <remarks>Marsaglia's polar method.</remarks>
    public double Normal()
    {
        if (_spare is { } kept)
        {
            _spare = null;
            return kept;
        }

        double a, b, square;
        do
        {
            (a, b) = ((2 * Unit()) - 1, (2 * Unit()) - 1);
            square = (a * a) + (b * b);
        }
        while (square is >= 1 or 0);
        var scale = Math.Sqrt(-2 * Math.Log(square) / square);
        _spare = b * scale;
        return a * scale;
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
