using Athwart.Quantities;

namespace Athwart.Jobs.Roles;

/// <summary>The words by which files name the role of a channel.</summary>
internal static class RoleWords
{
    /// <summary>From an iXML FUNCTION; <see cref="ChannelRole.Other"/> for a word that names none of ours.</summary>
    /// <remarks>Source: the public iXML function dictionary; see docs/sources.md#ixml.</remarks>
    public static ChannelRole FromFunction(string? function) => function?.Trim().ToUpperInvariant() switch
    {
        "M-MID_SIDE" => ChannelRole.Mid,
        "S-MID_SIDE" => ChannelRole.Side,
        "LEFT" or "L-MIX" or "L-GENERIC" => ChannelRole.Left,
        "RIGHT" or "R-MIX" or "R-GENERIC" => ChannelRole.Right,
        _ => ChannelRole.Other,
    };

    /// <summary>From a track name as people write them: 'Mid', 'M', 'side (fig 8)', 'Mix L'. Common practice, no source.</summary>
    public static ChannelRole FromName(string? name)
    {
        var words = (name ?? "").ToUpperInvariant().Split([' ', '-', '_', '.', '(', ')', '/', ':', ','], StringSplitOptions.RemoveEmptyEntries);
        var mid = words.Any(w => w is "MID" or "M");
        var side = words.Any(w => w is "SIDE" or "S");
        // 'M/S' names the pair, not one of its channels.
        if (mid && side)
            return ChannelRole.Other;
        if (mid || side)
            return mid ? ChannelRole.Mid : ChannelRole.Side;
        if (words.Any(w => w is "LEFT" or "L"))
            return ChannelRole.Left;
        return words.Any(w => w is "RIGHT" or "R") ? ChannelRole.Right : ChannelRole.Other;
    }
}
