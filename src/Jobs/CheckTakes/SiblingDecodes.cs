using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Finds takes that are the recorder's own decode of another take of the same card.</summary>
/// <remarks>
/// Some recorders write the raw pair to one file and the decoded stereo to a second. Such a file has the same length,
/// rate and time reference; whether it really is the decode is settled by numbers, not by its name.
/// </remarks>
internal static class SiblingDecodes
{
    private const int BlockFrames = 16 * 1024;

    /// <summary>Adds the finding to both takes of every pair that fits.</summary>
    public static IReadOnlyList<TakeCheck> Mark(IReadOnlyList<TakeCheck> checks, CancellationToken cancellation)
    {
        var marked = checks.ToArray();
        foreach (var group in Enumerable.Range(0, marked.Length).Where(i => marked[i].Take.ChannelCount == 2).GroupBy(i => Key(marked[i].Take)).Where(g => g.Count() is > 1 and <= 4))
        {
            foreach (var raw in group)
            {
                foreach (var stereo in group.Where(i => i != raw && marked[i].RecordedDecodeOf is null && marked[raw].RecordedDecode is null))
                    Compare(marked, raw, stereo, cancellation);
            }
        }

        return marked;
    }

    private static (long, int, ulong) Key(TakeDescription take) => (take.FrameCount, take.SampleRateHertz, take.Broadcast?.TimeReference ?? 0);

    private static void Compare(TakeCheck[] checks, int raw, int stereo, CancellationToken cancellation)
    {
        var match = Match(checks[raw].Take, checks[raw].Roles, checks[stereo].Take, cancellation);
        if (match.Verdict != DecodedPairVerdict.Decode)
            return;
        checks[raw] = checks[raw] with
        {
            RecordedDecode = match,
            RecordedDecodeOf = checks[raw].Take.Name,
            Findings = TakeChecker.InOrder([.. checks[raw].Findings, RoleFindings.Decode(match, $"The channels of '{checks[stereo].Take.Name}'")]),
        };
        checks[stereo] = checks[stereo] with
        {
            RecordedDecodeOf = checks[raw].Take.Name,
            Findings = TakeChecker.InOrder(
            [
                // It is no pair to decode: what was predicted of its decode does not concern it.
                .. checks[stereo].Findings.Where(f => f.Role is ChannelRole.Mid or ChannelRole.Side || f.File is not null),
                RoleFindings.Decode(match, "These channels") with { Kind = "is-recorded-decode", Message = $"This take is the recorder's own decode of '{checks[raw].Take.Name}', not a raw pair.", Remedy = "Decode the raw pair instead; keep this one for comparison." },
            ]),
        };
    }

    private static DecodedPairMatch Match(TakeDescription raw, RoleAssignment roles, TakeDescription stereo, CancellationToken cancellation)
    {
        using var decoded = stereo.Open();
        using var pair = raw.Open();
        var matcher = new DecodedPairMatcher(raw.SampleRateHertz);
        var other = new PlanarBlock<float>(2, BlockFrames);
        long at = 0;
        RoleBlocks.ForEach(pair, roles, BlockFrames, (_, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            decoded.Read(at, mid.Length, other);
            matcher.Add(mid, side, other.Channel(0), other.Channel(1));
            at += mid.Length;
        });
        return matcher.Complete();
    }
}
