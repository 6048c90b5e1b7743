using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>Finds a chain of whole chunks that ends exactly at the end of a file whose sample size is unknown.</summary>
/// <remarks>Only chains of known names count, so that sound is not taken for a chunk: the odds of four bytes and a size falling into place by chance are below 1 in 10^14 a file.</remarks>
internal static class TailFinder
{
    private const int Window = 256 * 1024;

    /// <summary>The bytes of the chain; 0 when there is none.</summary>
    public static ulong Find(ByteSource source, long notBefore)
    {
        var length = (int)Math.Min(Window, source.Length - notBefore);
        var bytes = new byte[length];
        length = source.Read(source.Length - length, bytes);
        var tail = bytes.AsSpan(0, length);
        var best = 0;
        // Backwards: each new header must lead to the chain already found, or to the end.
        for (var i = length - 8; i >= 0; i--)
        {
            var size = BinaryPrimitives.ReadUInt32LittleEndian(tail[(i + 4)..]);
            if (size > length - i - 8)
                continue;
            var end = i + 8 + (int)size;
            var target = length - best;
            if ((end == target || (end + 1 == target && (size & 1) != 0)) && FourCharacters.IsKnown(FourCharacters.Read(tail[i..])))
                best = length - i;
        }

        return (ulong)best;
    }
}
