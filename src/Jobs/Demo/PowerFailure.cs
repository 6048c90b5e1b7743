using System.Buffers.Binary;

namespace Athwart.Jobs.Demo;

/// <summary>Turns a finished file into one whose recorder lost its power: sizes never written, the end missing.</summary>
internal static class PowerFailure
{
    /// <param name="path">A RIFF file, which is changed.</param>
    /// <param name="frames">Whole frames that reached the card.</param>
    /// <param name="frameBytes">Bytes in a frame.</param>
    /// <param name="more">Bytes of the next frame that reached it too.</param>
    public static void Strike(string path, long frames, int frameBytes, int more)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        var data = FindData(file);
        file.SetLength(data + 8 + (frames * frameBytes) + more);
        Zero(file, 4);
        Zero(file, data + 4);
    }

    private static long FindData(FileStream file)
    {
        Span<byte> head = stackalloc byte[8];
        for (long at = 12; ;)
        {
            file.Position = at;
            file.ReadExactly(head);
            if (head[..4].SequenceEqual("data"u8))
                return at;
            var size = BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
            at += 8 + size + (size & 1);
        }
    }

    private static void Zero(FileStream file, long at)
    {
        file.Position = at;
        file.Write([0, 0, 0, 0]);
    }
}
