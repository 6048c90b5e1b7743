using System.Globalization;
using System.Text.RegularExpressions;

namespace Athwart.Recordings;

/// <summary>A name that says which of several channels a mono file holds.</summary>
/// <param name="Stem">The name without what tells the channel.</param>
/// <param name="Style">How the channel is told, such as 'left/right'; files of different styles are no pair.</param>
/// <param name="Order">The place of the channel, from 1.</param>
internal sealed partial record PairName(string Stem, string Style, int Order)
{
    /// <summary>The style of a bare number, which other things than channels have too.</summary>
    public const string BareNumber = "number";

    /// <summary>Reads a stem without folder and extension; null when it tells no channel.</summary>
    /// <remarks>Common practice, no source: a separator (_ - . blank) and then L R, Left Right, M S, Mid Side, Tr1 Track1 Ch1 Chan1 Mono1 In1 A1 with any number, or a single digit.</remarks>
    public static PairName? Parse(string stem)
    {
        var match = Pattern().Match(stem);
        if (!match.Success)
            return null;
        var (name, word, digits) = (match.Groups["stem"].Value, match.Groups["word"].Value.ToUpperInvariant(), match.Groups["digits"].Value);
        if (digits.Length > 0)
            return new(name, word.Length == 0 ? BareNumber : word, int.Parse(digits, CultureInfo.InvariantCulture));
        return word switch
        {
            "L" => new(name, "l/r", 1),
            "R" => new(name, "l/r", 2),
            "LEFT" => new(name, "left/right", 1),
            "RIGHT" => new(name, "left/right", 2),
            "M" => new(name, "m/s", 1),
            "S" => new(name, "m/s", 2),
            "MID" => new(name, "mid/side", 1),
            _ => new(name, "mid/side", 2),
        };
    }

    // A file name has 255 letters at the most and takes microseconds; the limit is for a pattern gone wrong, not for a busy machine.
    [GeneratedRegex(@"^(?<stem>.+?)[-_. ]+(?:(?<word>L|R|LEFT|RIGHT|M|S|MID|SIDE)|(?<word>TR|TRACK|CH|CHAN|MONO|IN|A)[-_ ]?(?<digits>[0-9]{1,2})|(?<word>)(?<digits>[1-9]))$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex Pattern();
}
