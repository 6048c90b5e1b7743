using Athwart.Jobs.Roles;

namespace Athwart.Jobs.Listening;

/// <summary>Tiles of peaks at every level: the coarse from the stored pyramid, the fine from the take itself.</summary>
public static class PeakTiles
{
    /// <summary>One tile: up to 1024 bins of <see cref="PeakLayout.BinBytes"/> bytes.</summary>
    /// <param name="take">The take.</param>
    /// <param name="pyramid">Its stored peaks; needed from <see cref="PeakLayout.StoredLevel"/> up.</param>
    /// <param name="level">0 (one frame a bin) to the top.</param>
    /// <param name="tile">Which, from 0; past the end gives nothing.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such level.</exception>
    public static byte[] Read(ListeningTake take, PeakPyramid? pyramid, int level, long tile, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(take);
        var layout = new PeakLayout(take.Recording.FrameCount);
        ArgumentOutOfRangeException.ThrowIfNegative(level);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(level, layout.TopLevel);
        ArgumentOutOfRangeException.ThrowIfNegative(tile);
        // A tile past the end has no bins; checked by division, for the product may not fit.
        if (tile >= layout.Tiles(level))
            return [];
        var bytes = new byte[layout.BinsOfTile(level, tile) * PeakLayout.BinBytes];
        if (level < PeakLayout.StoredLevel)
        {
            Measure(take, level, tile * PeakLayout.BinsPerTile, bytes, cancellation);
        }
        else
        {
            ArgumentNullException.ThrowIfNull(pyramid);
            pyramid.Read(level, tile * PeakLayout.BinsPerTile, bytes);
        }

        return bytes;
    }

    private static void Measure(ListeningTake take, int level, long firstBin, Memory<byte> bins, CancellationToken cancellation)
    {
        var size = (int)PeakLayout.FramesPerBin(level);
        var from = firstBin * size;
        var to = Math.Min(take.Recording.FrameCount, from + ((long)bins.Length / PeakLayout.BinBytes * size));
        var at = 0;
        // Blocks are whole bins: 16 384 is a multiple of every fine size.
        RoleBlocks.ForEach(take.Recording, take.Roles, from, to, 16_384, (_, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            for (var n = 0; n < mid.Length; n += size, at += PeakLayout.BinBytes)
            {
                var count = Math.Min(size, mid.Length - n);
                PeakSums.Of(mid.Slice(n, count), side.Slice(n, count)).WriteTo(bins.Span[at..]);
            }
        });
    }
}
