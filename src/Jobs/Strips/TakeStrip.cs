using System.Buffers.Binary;
using Athwart.Jobs.Listening;

namespace Athwart.Jobs.Strips;

/// <summary>The shape of a whole take in a few columns: the highest magnitude of mid and of side in each.</summary>
/// <param name="Mid">By column, full scale 1.</param>
/// <param name="Side">By column, full scale 1.</param>
/// <param name="Frames">Frames of the take.</param>
public sealed record TakeStrip(IReadOnlyList<float> Mid, IReadOnlyList<float> Side, long Frames)
{
    /// <summary>From the stored peaks; no sample is read.</summary>
    /// <param name="pyramid">The peaks.</param>
    /// <param name="columns">Columns wanted, 1 to 1024; fewer come of a very short take.</param>
    public static TakeStrip Of(PeakPyramid pyramid, int columns)
    {
        ArgumentNullException.ThrowIfNull(pyramid);
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        var bytes = new byte[PeakLayout.BinsPerTile * PeakLayout.BinBytes];
        var bins = pyramid.Read(pyramid.Layout.TopLevel, 0, bytes);
        var count = Math.Min(columns, bins);
        var (mid, side) = (new float[count], new float[count]);
        for (var bin = 0; bin < bins; bin++)
        {
            var at = bytes.AsSpan(bin * PeakLayout.BinBytes);
            var column = (int)((long)bin * count / bins);
            mid[column] = Math.Max(mid[column], Reach(at));
            side[column] = Math.Max(side[column], Reach(at[4..]));
        }

        return new(mid, side, pyramid.Layout.FrameCount);
    }

    private static float Reach(ReadOnlySpan<byte> lowAndHigh) => Math.Max(
        Math.Abs((float)BinaryPrimitives.ReadHalfLittleEndian(lowAndHigh)),
        Math.Abs((float)BinaryPrimitives.ReadHalfLittleEndian(lowAndHigh[2..])));
}
