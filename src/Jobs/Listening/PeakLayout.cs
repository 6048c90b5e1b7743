namespace Athwart.Jobs.Listening;

/// <summary>How the peaks of a take are divided: a bin of level k covers 4^k frames, a tile holds 1024 bins.</summary>
/// <remarks>
/// Levels from <see cref="StoredLevel"/> up lie in a file; finer ones are read from the take itself, which for one tile is at
/// most 262 144 frames. So the file stays at about half a percent of the take, and the zoom still ends at the sample.
/// </remarks>
public readonly record struct PeakLayout
{
    /// <summary>Bins of a tile; the last tile of a level may have fewer.</summary>
    public const int BinsPerTile = 1024;

    /// <summary>The finest level kept in the file: 4^5 = 1024 frames a bin.</summary>
    public const int StoredLevel = 5;

    /// <summary>Bytes of a bin; <see cref="PeakSums.WriteTo"/> says what they hold.</summary>
    public const int BinBytes = 22;

    /// <summary>Divides a take.</summary>
    /// <param name="frameCount">Frames of the take, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is negative.</exception>
    public PeakLayout(long frameCount)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frameCount);
        FrameCount = frameCount;
        TopLevel = StoredLevel;
        while (Bins(TopLevel) > BinsPerTile)
            TopLevel++;
    }

    /// <summary>Frames of the take.</summary>
    public long FrameCount { get; }

    /// <summary>The coarsest level: the whole take in one tile.</summary>
    public int TopLevel { get; }

    /// <summary>The bytes of all stored levels together.</summary>
    public long StoredBytes => Offset(TopLevel) + (Bins(TopLevel) * BinBytes);

    /// <summary>Frames of a whole bin: 4^level.</summary>
    public static long FramesPerBin(int level) => 1L << (2 * level);

    /// <summary>Bins of a level; the last may cover fewer frames.</summary>
    public long Bins(int level) => (FrameCount + FramesPerBin(level) - 1) >> (2 * level);

    /// <summary>Tiles of a level; the last may hold fewer bins.</summary>
    public long Tiles(int level) => (Bins(level) + BinsPerTile - 1) / BinsPerTile;

    /// <summary>Bins of one tile; 0 past the end.</summary>
    public int BinsOfTile(int level, long tile) => (int)Math.Clamp(Bins(level) - (tile * BinsPerTile), 0, BinsPerTile);

    /// <summary>Where a stored level begins, in bytes after the header.</summary>
    public long Offset(int level)
    {
        long offset = 0;
        for (var finer = StoredLevel; finer < level; finer++)
            offset += Bins(finer) * BinBytes;
        return offset;
    }
}
