using System.Collections;

namespace Athwart.Signals.Shaping;

/// <summary>A list that is equal to another with equal items, so that records holding one compare by value; it keeps a copy.</summary>
internal sealed class EquatableList<T>(IEnumerable<T> items) : IReadOnlyList<T>, IEquatable<EquatableList<T>>
{
    private readonly T[] _items = [.. items];

    public int Count => _items.Length;

    public T this[int index] => _items[index];

    public bool Equals(EquatableList<T>? other) => other is not null && _items.AsSpan().SequenceEqual(other._items);

    public override bool Equals(object? obj) => Equals(obj as EquatableList<T>);

    public override int GetHashCode()
    {
        var hash = default(HashCode);
        foreach (var item in _items)
            hash.Add(item);
        return hash.ToHashCode();
    }

    public IEnumerator<T> GetEnumerator() => ((IEnumerable<T>)_items).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
