namespace Athwart.Metering;

/// <summary>
/// One channel's working buffer: the last samples of the block before, then the block, then zeros up to a whole sub-block. Blocks
/// always begin at multiples of <see cref="Length"/>, whatever the caller's blocks, so that every answer is the same.
/// </summary>
internal sealed class SampleWindow
{
    /// <summary>Samples of history, frames of a whole block, and frames of a sub-block.</summary>
    public const int Lead = 16, Length = 4096, SubBlock = 64;

    /// <summary>Lead, block and room for vector loads.</summary>
    public float[] Samples { get; } = new float[Lead + Length];

    /// <summary>Where the block goes.</summary>
    public Span<float> Block => Samples.AsSpan(Lead);

    /// <summary>Keeps the end of the block as the history of the next.</summary>
    public void Advance() => Samples.AsSpan(Length, Lead).CopyTo(Samples);
}
