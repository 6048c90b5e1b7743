using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Athwart.Jobs.Roles;

namespace Athwart.Jobs.Listening;

/// <summary>Stretches of a take as 32-bit float mid and side at the take's own rate: what the browser plays, whatever the file is.</summary>
/// <remarks>Reading is positional: hours into a take costs what its start costs. 32-bit integers are rounded to 24 bits of mantissa, 64-bit floats likewise.</remarks>
public static class PairSlices
{
    /// <summary>The most frames of one slice: 2 MiB of bytes.</summary>
    public const int MaxFrames = 262_144;

    private const int BlockFrames = 16_384;

    /// <summary>Reads a slice: all of mid, then all of side, little-endian; the side turned over where its polarity asks for it, silent where there is none.</summary>
    /// <param name="take">The take.</param>
    /// <param name="firstFrame">The first frame, 0 or more; past the end gives nothing.</param>
    /// <param name="frames">Frames wanted, 1 to <see cref="MaxFrames"/>; fewer come at the end.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of range.</exception>
    public static byte[] Read(ListeningTake take, long firstFrame, int frames, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentOutOfRangeException.ThrowIfNegative(firstFrame);
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frames, MaxFrames);
        var count = (int)Math.Clamp(take.Recording.FrameCount - firstFrame, 0, frames);
        var bytes = new byte[count * 2 * sizeof(float)];
        var (mid, side) = (bytes.AsMemory(0, bytes.Length / 2), bytes.AsMemory(bytes.Length / 2));
        var done = 0;
        RoleBlocks.ForEach(take.Recording, take.Roles, firstFrame, firstFrame + count, BlockFrames, (_, m, s) =>
        {
            cancellation.ThrowIfCancellationRequested();
            Put(m, mid.Span[(done * sizeof(float))..]);
            Put(s, side.Span[(done * sizeof(float))..]);
            done += m.Length;
        });
        return bytes;
    }

    private static void Put(ReadOnlySpan<float> samples, Span<byte> bytes)
    {
        if (BitConverter.IsLittleEndian)
        {
            MemoryMarshal.AsBytes(samples).CopyTo(bytes);
            return;
        }

        for (var i = 0; i < samples.Length; i++)
            BinaryPrimitives.WriteSingleLittleEndian(bytes[(i * sizeof(float))..], samples[i]);
    }
}
