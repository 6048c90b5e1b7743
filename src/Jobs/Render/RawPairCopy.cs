using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>Copies the bytes of two channels, whatever the word.</summary>
internal static class RawPairCopy
{
    public static void Run(IRecording source, RenderPlan plan, WaveWriter writer, IProgress<RenderProgress>? progress, CancellationToken cancellation)
    {
        int size = source.Format.BytesPerSample, frameBytes = size * source.ChannelCount;
        byte[] all = new byte[RenderChunk.Frames * frameBytes], pair = new byte[RenderChunk.Frames * size * 2];
        for (long n = 0; n < plan.CutLength;)
        {
            cancellation.ThrowIfCancellationRequested();
            var count = (int)Math.Min(RenderChunk.Frames, plan.CutLength - n);
            if (source.ReadBytes(plan.Source.FromFrame + n, count, all) != count)
                throw new RenderException(RenderErrorKind.Source, $"The recording ended before frame {plan.Source.FromFrame + n + count}; it became shorter while it was read. Copy it again.");
            if (source.ChannelCount == 2 && plan.MidChannel == 0)
            {
                writer.WriteBytes(all.AsSpan(0, count * frameBytes));
            }
            else
            {
                Pick(all, pair, count, size, frameBytes, plan.MidChannel * size, plan.SideChannel * size);
                writer.WriteBytes(pair.AsSpan(0, count * size * 2));
            }

            n += count;
            progress?.Report(new(n, plan.CutLength));
        }
    }

    private static void Pick(ReadOnlySpan<byte> all, Span<byte> pair, int count, int size, int frameBytes, int mid, int side)
    {
        for (var n = 0; n < count; n++)
        {
            all.Slice((n * frameBytes) + mid, size).CopyTo(pair[(2 * n * size)..]);
            all.Slice((n * frameBytes) + side, size).CopyTo(pair[(((2 * n) + 1) * size)..]);
        }
    }
}
