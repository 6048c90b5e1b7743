namespace Athwart.Recordings;

/// <summary>A reusable block of samples, one array a channel.</summary>
/// <typeparam name="T">The sample type: float and double with full scale ±1, int in steps.</typeparam>
public sealed class PlanarBlock<T>
    where T : unmanaged
{
    private readonly T[][] _channels;
    private int _length;

    /// <summary>Allocates a block; this is the only allocation.</summary>
    /// <param name="channelCount">Channels, 1 or more.</param>
    /// <param name="capacity">Frames it can hold, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of range.</exception>
    public PlanarBlock(int channelCount, int capacity)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(channelCount, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(capacity);
        Capacity = capacity;
        _channels = new T[channelCount][];
        for (var c = 0; c < channelCount; c++)
            _channels[c] = GC.AllocateUninitializedArray<T>(capacity);
    }

    /// <summary>The number of channels.</summary>
    public int ChannelCount => _channels.Length;

    /// <summary>The frames it can hold.</summary>
    public int Capacity { get; }

    /// <summary>The frames it holds now, 0 to <see cref="Capacity"/>; 0 at first.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Set out of range.</exception>
    public int Length
    {
        get => _length;
        set
        {
            ArgumentOutOfRangeException.ThrowIfNegative(value);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(value, Capacity);
            _length = value;
        }
    }

    /// <summary>The samples of a channel, <see cref="Length"/> long.</summary>
    public Span<T> Channel(int channel) => _channels[channel].AsSpan(0, _length);

    /// <summary>The whole array of a channel, <see cref="Capacity"/> long; beyond <see cref="Length"/> the content is arbitrary.</summary>
    public Span<T> WholeChannel(int channel) => _channels[channel];

    /// <summary>The array behind a channel, for callers that must hand it to another thread.</summary>
    public T[] Array(int channel) => _channels[channel];
}
