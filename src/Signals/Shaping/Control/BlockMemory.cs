using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>The last blocks of mid and side, each at its place by its number.</summary>
internal sealed class BlockMemory(int blockFrames, int blocks)
{
    private readonly double[] _mid = new double[blockFrames * blocks];
    private readonly double[] _side = new double[blockFrames * blocks];

    /// <summary>Frames of a block.</summary>
    public int BlockFrames => blockFrames;

    /// <summary>The mid of a block.</summary>
    public Span<double> Mid(long number) => _mid.AsSpan(Start(number), blockFrames);

    /// <summary>The side of a block.</summary>
    public Span<double> Side(long number) => _side.AsSpan(Start(number), blockFrames);

    /// <summary>Silence everywhere.</summary>
    public void Clear()
    {
        Array.Clear(_mid);
        Array.Clear(_side);
    }

    private int Start(long number) => (int)Floored.Rest(number, blocks) * blockFrames;
}
