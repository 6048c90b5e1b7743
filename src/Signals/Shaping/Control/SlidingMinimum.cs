namespace Athwart.Signals.Shaping.Control;

/// <summary>The least of the last n values, in constant time on average; 1 while there are none.</summary>
internal sealed class SlidingMinimum(int length)
{
    // Values that may yet become the least, ascending, with their numbers.
    private readonly double[] _values = new double[length];
    private readonly long[] _numbers = new long[length];
    private int _first;
    private int _count;
    private long _next;

    /// <summary>Starts anew without values.</summary>
    public void Begin()
    {
        _first = 0;
        _count = 0;
        _next = 0;
    }

    /// <summary>Takes the next value and gives the least of the last n.</summary>
    public double Add(double value)
    {
        if (_count > 0 && _numbers[_first] <= _next - length)
        {
            _first = Wrapped(_first + 1);
            _count--;
        }

        while (_count > 0 && _values[Wrapped(_first + _count - 1)] >= value)
            _count--;
        var place = Wrapped(_first + _count++);
        _values[place] = value;
        _numbers[place] = _next++;
        return _values[_first];
    }

    private int Wrapped(int place) => place >= length ? place - length : place;
}
