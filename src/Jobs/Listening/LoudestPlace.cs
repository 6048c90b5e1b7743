using System.Buffers.Binary;

namespace Athwart.Jobs.Listening;

/// <summary>Follows the stored peaks down to the loudest bin.</summary>
internal static class LoudestPlace
{
    /// <summary>The middle frame of the loudest of the finest stored bins below a bin of a coarser level.</summary>
    public static long Within(PeakPyramid pyramid, int level, long bin)
    {
        Span<byte> children = stackalloc byte[4 * PeakLayout.BinBytes];
        for (; level > PeakLayout.StoredLevel; level--)
        {
            bin *= 4;
            // The coarsest column of a spectrogram may be longer than the coarsest bin.
            if (level - 1 > pyramid.Layout.TopLevel)
                continue;
            var count = pyramid.Read(level - 1, bin, children);
            bin += Loudest(children[..(count * PeakLayout.BinBytes)]);
        }

        var size = PeakLayout.FramesPerBin(PeakLayout.StoredLevel);
        return (bin * size) + (size / 2);
    }

    // Power of mid and side together: the extremes would prefer a click to a sound.
    private static int Loudest(ReadOnlySpan<byte> bins)
    {
        var (loudest, most) = (0, -1f);
        for (var n = 0; n < bins.Length / PeakLayout.BinBytes; n++)
        {
            var bin = bins[(n * PeakLayout.BinBytes)..];
            var (mid, side) = ((float)BinaryPrimitives.ReadHalfLittleEndian(bin[16..]), (float)BinaryPrimitives.ReadHalfLittleEndian(bin[18..]));
            var power = (mid * mid) + (side * side);
            if (power > most)
                (loudest, most) = (n, power);
        }

        return loudest;
    }
}
