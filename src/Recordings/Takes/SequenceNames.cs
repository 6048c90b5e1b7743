using System.Globalization;

namespace Athwart.Recordings;

/// <summary>Names that count on: CARD_0001 and CARD_0002, T7-1_Tr2 and T7-2_Tr2, take and take_2.</summary>
internal static class SequenceNames
{
    private static readonly char[] Separators = ['_', '-', ' ', '.'];

    /// <summary>Whether the second stem is the first with exactly one of its numbers one higher, or with a first number added.</summary>
    /// <param name="first">A stem without folder and extension.</param>
    /// <param name="second">Another.</param>
    /// <param name="withoutNumber">The first stem without that number, where a separator sets it off; else the first stem.</param>
    public static bool Follows(string first, string second, out string withoutNumber)
    {
        withoutNumber = first;
        var (a, b) = (Runs(first), Runs(second));
        if (a.Count == b.Count)
            return DiffersByOne(first, a, b, ref withoutNumber);
        return second.Length > first.Length + 1
            && second.StartsWith(first, StringComparison.Ordinal)
            && Separators.Contains(second[first.Length])
            && Number(second[(first.Length + 1)..]) is 1 or 2;
    }

    private static bool DiffersByOne(string first, List<string> a, List<string> b, ref string withoutNumber)
    {
        var at = -1;
        for (var i = 0; i < a.Count; i++)
        {
            if (string.Equals(a[i], b[i], StringComparison.Ordinal))
                continue;
            if (at >= 0 || Number(a[i]) is not { } before || Number(b[i]) != before + 1)
                return false;
            at = i;
        }

        if (at > 0 && Separators.Contains(a[at - 1][^1]))
            withoutNumber = string.Concat(a.Take(at)).TrimEnd(Separators) + string.Concat(a.Skip(at + 1));
        if (withoutNumber.Length == 0)
            withoutNumber = first;
        return at >= 0;
    }

    /// <summary>The stem cut where digits begin and end.</summary>
    private static List<string> Runs(string stem)
    {
        var runs = new List<string>();
        var from = 0;
        for (var i = 1; i <= stem.Length; i++)
        {
            if (i == stem.Length || char.IsAsciiDigit(stem[i]) != char.IsAsciiDigit(stem[i - 1]))
            {
                runs.Add(stem[from..i]);
                from = i;
            }
        }

        return runs;
    }

    private static long? Number(string text) =>
        text.Length is > 0 and <= 18 && long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
