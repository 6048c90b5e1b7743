using Athwart.Recordings;

namespace Athwart.Jobs.Roles;

/// <summary>Streams a recording as mid and side, the side turned over where its polarity asks for it.</summary>
internal static class RoleBlocks
{
    /// <summary>Receives one block; the spans are valid only during the call.</summary>
    /// <param name="block">Every channel of the block.</param>
    /// <param name="mid">The mid, full scale ±1.</param>
    /// <param name="side">The side, positive lobe to the left; silence when the take has none.</param>
    public delegate void Receiver(PlanarBlock<float> block, ReadOnlySpan<float> mid, ReadOnlySpan<float> side);

    /// <summary>Reads from the first frame to the last.</summary>
    public static void ForEach(IRecording recording, RoleAssignment roles, int blockFrames, Receiver receive) =>
        ForEach(recording, roles, 0, recording.FrameCount, blockFrames, receive);

    /// <summary>Reads the frames <paramref name="from"/> up to, not including, <paramref name="to"/>.</summary>
    public static void ForEach(IRecording recording, RoleAssignment roles, long from, long to, int blockFrames, Receiver receive)
    {
        var block = new PlanarBlock<float>(recording.ChannelCount, blockFrames);
        var turned = new float[roles.SideChannel is null || roles.SideInverted ? blockFrames : 0];
        for (var at = from; at < to;)
        {
            var read = recording.Read(at, (int)Math.Min(blockFrames, to - at), block);
            if (read == 0)
                return;
            receive(block, block.Channel(roles.MidChannel), Side(block, roles, turned.AsSpan(0, Math.Min(read, turned.Length))));
            at += read;
        }
    }

    private static ReadOnlySpan<float> Side(PlanarBlock<float> block, RoleAssignment roles, Span<float> turned)
    {
        if (roles.SideChannel is not { } channel)
            return turned;
        var side = block.Channel(channel);
        if (!roles.SideInverted)
            return side;
        for (var i = 0; i < side.Length; i++)
            turned[i] = -side[i];
        return turned;
    }
}
