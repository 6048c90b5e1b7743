namespace Athwart.Jobs.Demo;

/// <summary>Chance with a fixed outcome: the same seed gives the same numbers on every machine.</summary>
/// <remarks>A 64-bit counter stepped by the golden ratio and mixed (splitmix64, Steele, Lea and Flood 2014, constants from memory).</remarks>
internal sealed class DemoRandom(ulong seed)
{
    private ulong _state = seed;

    /// <summary>The next 64 bits.</summary>
    public ulong Bits()
    {
        var z = _state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>Another stream of chance, so that a change in one sound leaves the others as they were.</summary>
    public DemoRandom Branch() => new(Bits());

    /// <summary>Even between 0 and 1.</summary>
    public double Unit() => (Bits() >> 11) * (1.0 / 9007199254740992);

    /// <summary>Even between two values.</summary>
    public double Between(double low, double high) => low + ((high - low) * Unit());

    /// <summary>Between two values, even in their logarithm, as sizes and pitches in nature are.</summary>
    public double Ratio(double low, double high)
    {
        // A square of an even number leans to the small end; close enough to log-even for a factor below 10, and exact everywhere.
        var u = Unit();
        return low + ((high - low) * u * u);
    }

    /// <summary>White noise, near normal, mean 0, power 1, within ±3.47: four 16-bit pieces of one draw.</summary>
    public double White()
    {
        var bits = Bits();
        var sum = (bits & 0xFFFF) + ((bits >> 16) & 0xFFFF) + ((bits >> 32) & 0xFFFF) + (bits >> 48);
        return ((double)sum - 131070) * (0.8660254037844386 / 32768);
    }
}
