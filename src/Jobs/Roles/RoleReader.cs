using System.Globalization;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Roles;

/// <summary>Decides which channel of a take is mid and which is side, and says what decided.</summary>
/// <remarks>
/// Order: what the recordist said of this take; iXML track functions; track names; what the session says; channel 1
/// mid, channel 2 side (common practice, no source). Functions are matched after trimming, since the published
/// dictionary has been copied with stray blanks (docs/sources.md#ixml).
/// </remarks>
public static class RoleReader
{
    /// <summary>Decides the roles of a take.</summary>
    /// <param name="tracks">One entry a channel, in channel order, as the files describe them.</param>
    /// <param name="channelCount">Channels of the take, 1 to 64.</param>
    /// <param name="take">What was said of the take.</param>
    /// <param name="session">What was said of the session.</param>
    /// <exception cref="JobException">A setting names a channel that the take does not have, or one channel twice.</exception>
    public static RoleAssignment Decide(IReadOnlyList<TakeTrack> tracks, int channelCount, RoleSettings take, RoleSettings session)
    {
        ArgumentNullException.ThrowIfNull(tracks);
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(session);
        var inverted = take.SideInverted ?? session.SideInverted ?? false;
        var functions = tracks.Select(t => RoleWords.FromFunction(t.Function)).ToList();
        var names = tracks.Select(t => RoleWords.FromName(t.Name)).ToList();
        var assignment = channelCount == 1
            ? OneChannel()
            : FromSetting(take, channelCount, RoleEvidence.TakeSetting, "set for this take")
              ?? FromWords(functions, tracks, RoleEvidence.TrackFunction, t => t.Function)
              ?? FromWords(names, tracks, RoleEvidence.TrackName, t => t.Name)
              ?? FromSetting(session, channelCount, RoleEvidence.SessionSetting, "set for the session")
              ?? ByOrder();
        var (left, right) = StereoPair(functions) ?? StereoPair(names) ?? ByPosition(assignment, channelCount);
        return assignment with
        {
            SideInverted = inverted,
            LeftChannel = left,
            RightChannel = right,
            SaysLeftRight = assignment.Evidence is RoleEvidence.SessionSetting or RoleEvidence.ChannelOrder && left is not null && channelCount == 2,
        };
    }

    private static RoleAssignment OneChannel() => new()
    {
        MidChannel = 0,
        SideChannel = null,
        Evidence = RoleEvidence.OneChannel,
        Explanation = "the take has one channel: it is taken as the mid, and there is no side",
    };

    private static RoleAssignment ByOrder() => new()
    {
        MidChannel = 0,
        SideChannel = 1,
        Evidence = RoleEvidence.ChannelOrder,
        Explanation = "nothing says which is which: channel 1 is taken as mid and channel 2 as side, as is common practice",
    };

    private static RoleAssignment? FromSetting(RoleSettings setting, int channelCount, RoleEvidence evidence, string words)
    {
        if (setting.MidChannel is null && setting.SideChannel is null)
            return null;
        var mid = setting.MidChannel ?? Remaining(setting.SideChannel!.Value);
        var side = setting.SideChannel ?? Remaining(mid);
        if (mid < 1 || mid > channelCount || side < 1 || side > channelCount || mid == side)
        {
            throw new JobException(
                JobErrorKind.WrongUse,
                string.Create(CultureInfo.InvariantCulture, $"mid channel {mid} and side channel {side} were {words}, but the take has channels 1 to {channelCount} and needs two different ones."),
                "Name two channels that exist.");
        }

        return new()
        {
            MidChannel = mid - 1,
            SideChannel = side - 1,
            Evidence = evidence,
            Explanation = string.Create(CultureInfo.InvariantCulture, $"{words}: channel {mid} is mid, channel {side} is side"),
        };
    }

    // With one channel named, the other of a pair is meant.
    private static int Remaining(int named) => named == 1 ? 2 : 1;

    private static RoleAssignment? FromWords(List<ChannelRole> roles, IReadOnlyList<TakeTrack> tracks, RoleEvidence evidence, Func<TakeTrack, string> word)
    {
        var mid = roles.IndexOf(ChannelRole.Mid);
        var side = roles.IndexOf(ChannelRole.Side);
        if (mid < 0 && side < 0)
            return null;
        // One of the two is enough on a two-channel take: the other channel is what is left.
        if (roles.Count == 2)
        {
            mid = mid < 0 ? 1 - side : mid;
            side = side < 0 ? 1 - mid : side;
        }

        if (mid < 0 || side < 0 || mid == side)
            return null;
        var kind = evidence == RoleEvidence.TrackFunction ? "iXML track functions" : "track names";
        return new()
        {
            MidChannel = mid,
            SideChannel = side,
            Evidence = evidence,
            Explanation = string.Create(CultureInfo.InvariantCulture, $"{kind}: channel {mid + 1} '{word(tracks[mid]).Trim()}' is mid, channel {side + 1} '{word(tracks[side]).Trim()}' is side"),
        };
    }

    private static (int? Left, int? Right)? StereoPair(List<ChannelRole> roles)
    {
        var left = roles.IndexOf(ChannelRole.Left);
        var right = roles.IndexOf(ChannelRole.Right);
        return left >= 0 && right >= 0 ? (left, right) : null;
    }

    // Recorders that keep their own decode put it in the channels that are left over, left first.
    private static (int? Left, int? Right) ByPosition(RoleAssignment roles, int channelCount)
    {
        if (channelCount != 4 || roles.SideChannel is not { } side)
            return (null, null);
        var others = Enumerable.Range(0, 4).Where(c => c != roles.MidChannel && c != side).ToList();
        return (others[0], others[1]);
    }
}
