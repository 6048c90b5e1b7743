using System.Collections.Immutable;
using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Choosing;

/// <summary>The side levels that are searched, and the coverage each gives a pair of patterns.</summary>
internal sealed class SideLevels
{
    private static readonly Hertz Reference = new(1000);

    private readonly Dictionary<(IPattern Mid, IPattern Side), Degrees?[]> _known = [];
    private readonly Decibels _threshold;

    public SideLevels(Decibels threshold, Decibels? given)
    {
        _threshold = threshold;
        // Half a decibel is as fine as coverage asks for: 1 dB turns it by some 6 degrees.
        Levels = given is { } level ? [level] : [.. Enumerable.Range(-24, 49).Select(n => new Decibels(n / 2.0))];
    }

    /// <summary>From −12 to +12 dB in steps of half a decibel, or the one that was given.</summary>
    public ImmutableArray<Decibels> Levels { get; }

    /// <summary>The coverage at each of <see cref="Levels"/>; null where it is never reached.</summary>
    public Degrees?[] Coverages(IPattern mid, IPattern side)
    {
        if (_known.TryGetValue((mid, side), out var coverages))
            return coverages;
        coverages = [.. Levels.Select(level => Coverage.Of(new(mid, side, level), _threshold, Reference))];
        return _known[(mid, side)] = coverages;
    }
}
