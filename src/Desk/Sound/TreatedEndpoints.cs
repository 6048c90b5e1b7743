using System.Buffers.Binary;
using Athwart.Jobs.Listening;
using Athwart.Jobs.Shape;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Athwart.Desk.Sound;

/// <summary>What the browser fetches to play a take as treated; same addresses, ids and limits as for the take itself.</summary>
internal static class TreatedEndpoints
{
    /// <summary>Adds the endpoints below those of a take.</summary>
    public static void MapTreated(this IEndpointRouteBuilder take)
    {
        take.MapGet("treated", About);
        take.MapGet("treated/pair", Pair);
        take.MapGet("treated/powers", Powers);
    }

    private static JsonHttpResult<TreatedAnswer> About(string take, string? effect, TreatedRoom room, CancellationToken cancellation)
    {
        if (!room.IsTreated(take, effect))
            return TypedResults.Json(new TreatedAnswer("", 0, 0, 0), SoundJson.Default.TreatedAnswer);
        TreatedTake? treated;
        long frames = 0;
        do
            treated = room.Find(take, effect, cancellation);
        while (!treated.TryUse(p => frames = p.FrameCount));
        var level = treated.Shaped.SideLevel.Value;
        return TypedResults.Json(new TreatedAnswer(treated.Version, frames, double.IsNegativeInfinity(level) ? null : level, treated.Shaped.Treated.Steps.Count), SoundJson.Default.TreatedAnswer);
    }

    private static FileContentHttpResult Pair(string take, string? effect, long from, int frames, TreatedRoom room, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(from);
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frames, PairSlices.MaxFrames);
        byte[] bytes = [];
        // Closed while we waited: it is opened anew.
        while (!room.Find(take, effect, cancellation).TryUse(p => bytes = Read(p, from, frames)))
            cancellation.ThrowIfCancellationRequested();
        return TypedResults.Bytes(bytes, "application/octet-stream");
    }

    private static JsonHttpResult<WeightedPowers> Powers(string take, string? effect, long from, long to, TreatedRoom room, CancellationToken cancellation)
    {
        using var preview = room.Find(take, effect, cancellation).Open();
        return TypedResults.Json(WeightedPowers.Measure(preview, from, to, cancellation), SoundJson.Default.WeightedPowers);
    }

    // All of mid, then all of side, little-endian, as for the take itself.
    private static byte[] Read(Preview preview, long from, int frames)
    {
        var count = (int)Math.Clamp(preview.FrameCount - from, 0, frames);
        if (count == 0)
            return [];
        float[] mid = new float[count], side = new float[count];
        preview.ReadMidSide(from, mid, side);
        var bytes = new byte[count * 2 * sizeof(float)];
        for (var n = 0; n < count; n++)
        {
            BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(n * sizeof(float)), mid[n]);
            BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan((count + n) * sizeof(float)), side[n]);
        }

        return bytes;
    }
}

/// <summary>What the browser needs to know of a treated take: a word for the treatment (empty for none), frames, side level (null is mono) and steps.</summary>
internal sealed record TreatedAnswer(string Version, long Frames, double? SideLevel, int Steps);
