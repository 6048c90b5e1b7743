using Athwart.Recordings;

namespace Athwart.Jobs.Decode;

/// <summary>Which channels hold mid and side, and how that is known.</summary>
/// <param name="MidChannel">The mid's channel, from 1.</param>
/// <param name="SideChannel">The side's channel, from 1.</param>
/// <param name="Evidence">One sentence.</param>
internal sealed record PairRoles(int MidChannel, int SideChannel, string Evidence)
{
    /// <summary>By what was said, else by the iXML functions, else by the track names, else 1 and 2.</summary>
    public static PairRoles Find(TakeDescription take, int? mid, int? side)
    {
        if (mid is not null || side is not null)
            return new(mid ?? (side == 1 ? 2 : 1), side ?? (mid == 2 ? 1 : 2), "The channels were given.");
        return Both(take, t => Is(t.Function, "M-MID_SIDE"), t => Is(t.Function, "S-MID_SIDE"), "The iXML track functions say so.")
            ?? Both(take, t => Is(t.Name, "mid") || Is(t.Name, "m"), t => Is(t.Name, "side") || Is(t.Name, "s"), "The track names say so.")
            ?? new(1, 2, "Nothing in the file says so; channel 1 is taken for the mid and 2 for the side.");
    }

    private static PairRoles? Both(TakeDescription take, Predicate<TakeTrack> isMid, Predicate<TakeTrack> isSide, string evidence)
    {
        var tracks = take.Tracks.ToList();
        int mid = tracks.FindIndex(isMid), side = tracks.FindIndex(isSide);
        return mid < 0 || side < 0 || mid == side ? null : new(mid + 1, side + 1, evidence);
    }

    private static bool Is(string text, string word) => text.Trim().Equals(word, StringComparison.OrdinalIgnoreCase);
}
