using System.Globalization;
using System.Text;

namespace Athwart.Jobs.Kits;

/// <summary>Headers as people type them, made comparable.</summary>
internal static class HeaderText
{
    /// <summary>Small letters, brackets and underscores as blanks, single blanks: 'Sensitivity [mV/Pa]' is 'sensitivity mv/pa'.</summary>
    public static string Plain(string header)
    {
        var plain = new StringBuilder(header.Length);
        foreach (var c in header)
        {
            if (!char.IsWhiteSpace(c) && c is not ('(' or ')' or '[' or ']' or '_' or ','))
                plain.Append(char.ToLowerInvariant(c));
            else if (plain.Length > 0 && plain[^1] != ' ')
                plain.Append(' ');
        }

        return plain.ToString().TrimEnd();
    }

    /// <summary>The known name that begins so, else the one with the fewest letters to change.</summary>
    public static string Nearest(string name, IEnumerable<string> known)
    {
        // Longer than any name: the distance to all is about the same, and it would take long.
        var plain = Plain(name.Length > 60 ? name[..60] : name);
        return known.OrderByDescending(k => Plain(k).StartsWith(plain, StringComparison.Ordinal)).ThenBy(k => Distance(plain, Plain(k))).First();
    }

    /// <summary>Letters to insert, remove or replace.</summary>
    internal static int Distance(string left, string right)
    {
        var row = Enumerable.Range(0, right.Length + 1).ToArray();
        for (var i = 1; i <= left.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= right.Length; j++)
            {
                var replaced = diagonal + (left[i - 1] == right[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(replaced, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row[^1];
    }

    /// <summary>A text from a file, cut to what a message can hold.</summary>
    public static string Short(string text) => text.Length <= 60 ? text : string.Create(CultureInfo.InvariantCulture, $"{text.AsSpan(0, 60)}…");
}
