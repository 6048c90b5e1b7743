namespace Athwart.Metering.Faults;

/// <summary>The last samples of both channels before the block at hand, and the block itself, in one piece.</summary>
internal sealed class PairHistory
{
    /// <summary>Frames kept before the block: 85 ms at 192 kHz.</summary>
    public const int Past = 16_384;

    // Room for many blocks, so that the past is seldom moved.
    private const int Room = Past + (8 * SampleWindow.Length);
    private readonly float[] _mid = new float[Room], _side = new float[Room];
    private int _start, _count;

    /// <summary>Frame of index 0; negative at the start of a take, where there is nothing yet.</summary>
    public long Origin { get; private set; } = -Past;

    /// <summary>Past and block of the mid.</summary>
    public ReadOnlySpan<float> Mid => _mid.AsSpan(_start, Past + _count);

    /// <summary>Past and block of the side.</summary>
    public ReadOnlySpan<float> Side => _side.AsSpan(_start, Past + _count);

    /// <summary>Index of the first frame of the take.</summary>
    public int First => (int)Math.Max(0, -Origin);

    /// <summary>Takes the next block.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        _start += _count;
        Origin += _count;
        _count = mid.Length;
        if (_start + Past + _count > Room)
        {
            _mid.AsSpan(_start, Past).CopyTo(_mid);
            _side.AsSpan(_start, Past).CopyTo(_side);
            _start = 0;
        }

        mid.CopyTo(_mid.AsSpan(_start + Past));
        side.CopyTo(_side.AsSpan(_start + Past));
    }
}
