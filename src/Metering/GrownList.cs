using System.Collections;

namespace Athwart.Metering;

/// <summary>A list that only grows, in pieces: nothing is copied while it does, and at most one piece is not yet used.</summary>
/// <remarks>A list that doubles holds up to three times what it needs while it is copied; over four hours that is tens of megabytes.</remarks>
internal sealed class GrownList<T> : IReadOnlyList<T>
{
    internal const int Piece = 4096;
    private readonly List<T[]> _pieces = [];

    /// <inheritdoc/>
    public int Count { get; private set; }

    /// <inheritdoc/>
    public T this[int index] => (uint)index < (uint)Count
        ? _pieces[index / Piece][index % Piece]
        : throw new ArgumentOutOfRangeException(nameof(index), index, $"The list holds {Count} items.");

    /// <summary>Adds one at the end.</summary>
    public void Add(T item)
    {
        if (Count % Piece == 0)
            _pieces.Add(new T[Piece]);
        _pieces[^1][Count++ % Piece] = item;
    }

    /// <inheritdoc/>
    public IEnumerator<T> GetEnumerator()
    {
        for (var index = 0; index < Count; index++)
            yield return this[index];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
