namespace Athwart.Jobs.Shape;

/// <summary>Streams a treated pair in single precision, for meters and pictures.</summary>
internal static class TreatedBlocks
{
    /// <summary>Receives one block; the spans are valid only during the call.</summary>
    public delegate void Receiver(ReadOnlySpan<float> mid, ReadOnlySpan<float> side);

    /// <summary>Reads all of it.</summary>
    public static void ForEach(TreatedChain chain, long from, int blockFrames, Receiver receive)
    {
        double[] mid = new double[blockFrames], side = new double[blockFrames];
        float[] mids = new float[blockFrames], sides = new float[blockFrames];
        chain.Pair.Begin(from);
        for (long at = 0; at < chain.Length; at += blockFrames)
        {
            var count = (int)Math.Min(blockFrames, chain.Length - at);
            chain.Pair.Read(mid.AsSpan(0, count), side.AsSpan(0, count));
            for (var n = 0; n < count; n++)
                (mids[n], sides[n]) = ((float)mid[n], (float)side[n]);
            receive(mids.AsSpan(0, count), sides.AsSpan(0, count));
        }
    }
}
