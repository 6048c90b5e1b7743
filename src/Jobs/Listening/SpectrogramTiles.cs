namespace Athwart.Jobs.Listening;

/// <summary>Which two signals a spectrogram is of.</summary>
public enum SpectrogramPair
{
    /// <summary>Mid and side.</summary>
    MidSide = 0,

    /// <summary>Left and right at side level 0 dB.</summary>
    LeftRight,
}

/// <summary>Tiles of a spectrogram, made when they are asked for: 256 columns of 4^level frames, rows evenly spaced in the logarithm of frequency.</summary>
/// <remarks>
/// A column that is longer than a few windows is not looked at in full: four windows spread evenly over it and one at its loudest
/// place, found in the stored peaks, so that a tile costs the same at every zoom and a short loud event is not missed. A cell is
/// the strongest power in it; a sine of amplitude 1 reads 0 dB (a Hann window, up to 1.4 dB less between bins).
/// </remarks>
public static class SpectrogramTiles
{
    /// <summary>Columns and rows of a tile.</summary>
    public const int Columns = 256, Rows = 160;

    /// <summary>The finest level: 64 frames a column.</summary>
    public const int FinestLevel = 3;

    /// <summary>The frequency at the lower edge of the lowest row; the upper edge of the highest is half the sample rate.</summary>
    public const double LowestHertz = 20;

    private const int SpreadWindows = 4;

    /// <summary>The coarsest level: the whole take in one tile.</summary>
    public static int TopLevel(long frameCount)
    {
        var level = FinestLevel;
        while ((long)Columns << (2 * level) < frameCount)
            level++;
        return level;
    }

    /// <summary>
    /// One tile: for each of the two signals <see cref="Rows"/> rows, lowest frequency first, of <see cref="Columns"/> bytes; a byte
    /// is (dB + 127.5) × 2, so 255 is full scale and 0 is −127.5 dB or less, and past the end of the take.
    /// </summary>
    /// <param name="take">The take.</param>
    /// <param name="pyramid">Its stored peaks.</param>
    /// <param name="pair">Which two signals.</param>
    /// <param name="level"><see cref="FinestLevel"/> to <see cref="TopLevel"/>.</param>
    /// <param name="tile">Which, from 0; past the end gives nothing.</param>
    /// <param name="cancellation">Ends it.</param>
    public static byte[] Read(ListeningTake take, PeakPyramid pyramid, SpectrogramPair pair, int level, long tile, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(pyramid);
        ArgumentOutOfRangeException.ThrowIfLessThan(level, FinestLevel);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(level, TopLevel(take.Recording.FrameCount));
        ArgumentOutOfRangeException.ThrowIfNegative(tile);
        var columnFrames = PeakLayout.FramesPerBin(level);
        var tileFrames = columnFrames * Columns;
        if (tile > take.Recording.FrameCount / tileFrames || tile * tileFrames >= take.Recording.FrameCount)
            return [];
        var look = new SpectrogramLook(take, pair, WindowFrames(columnFrames, take.Recording.SampleRateHertz));
        var cells = new byte[2 * Rows * Columns];
        for (var column = 0; column < Columns; column++)
        {
            cancellation.ThrowIfCancellationRequested();
            var from = (tile * tileFrames) + (column * columnFrames);
            if (from >= take.Recording.FrameCount)
                break;
            Look(look, pyramid, level, from, columnFrames);
            look.Write(cells, column);
        }

        return cells;
    }

    /// <summary>About 43 ms where columns are long; shorter where they are short, so that the picture sharpens in time as one zooms in.</summary>
    private static int WindowFrames(long columnFrames, int sampleRateHertz)
    {
        var factor = Math.Max(1, (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(sampleRateHertz / 48_000)));
        return (int)Math.Clamp(4 * columnFrames, 512L * factor, 2048L * factor);
    }

    private static void Look(SpectrogramLook look, PeakPyramid pyramid, int level, long from, long frames)
    {
        var needed = (int)Math.Clamp((frames + (look.WindowFrames / 2) - 1) / (look.WindowFrames / 2), 1, SpreadWindows);
        for (var n = 0; n < needed; n++)
            look.Add(from + (frames * ((2 * n) + 1) / (2 * needed)));
        if (level > PeakLayout.StoredLevel)
            look.Add(LoudestPlace.Within(pyramid, level, from >> (2 * level)));
    }
}

