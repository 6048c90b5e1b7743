using System.Globalization;
using System.Text;

namespace Athwart.Jobs.Deliver.Naming;

/// <summary>Makes names that every file system in use takes, and never the same one twice.</summary>
public sealed class FileNames
{
    /// <summary>
    /// The longest base name in UTF-8 bytes. File systems allow 255 a name; what is left is room for the longest
    /// ending and for the mark of an unfinished file.
    /// </summary>
    public const int LongestBaseName = 200;

    private static readonly HashSet<string> Reserved = new(StringComparer.OrdinalIgnoreCase)
    {
        "CON", "PRN", "AUX", "NUL",
        "COM1", "COM2", "COM3", "COM4", "COM5", "COM6", "COM7", "COM8", "COM9",
        "LPT1", "LPT2", "LPT3", "LPT4", "LPT5", "LPT6", "LPT7", "LPT8", "LPT9",
    };

    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>A name without what file systems refuse: controls and <c>&lt;&gt;:"/\|?*</c> become '-'.</summary>
    /// <param name="wanted">Any text.</param>
    /// <returns>At least one and at most <see cref="LongestBaseName"/> bytes, no halves of letters, no leading or trailing blank or trailing dot.</returns>
    public static string Clean(string wanted)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        var clean = new StringBuilder(wanted.Length);
        foreach (var rune in wanted.EnumerateRunes().Where(r => r != Rune.ReplacementChar))
            clean.Append(IsRefused(rune) ? "-" : rune.ToString());
        var name = Shorten(clean.ToString().Trim().TrimEnd('.', ' '), LongestBaseName);
        if (name.Length == 0 || name.All(c => c == '.'))
            return "unnamed";
        var stem = name.Split('.')[0];
        return Reserved.Contains(stem.TrimEnd()) ? "_" + name : name;
    }

    /// <summary>Cleans a name and, when it was given out before (whatever its case), numbers it: 'gate', 'gate-2', 'gate-3'.</summary>
    public string Unique(string wanted)
    {
        var name = Clean(wanted);
        for (var n = 2; !_taken.Add(name); n++)
        {
            var ending = string.Create(CultureInfo.InvariantCulture, $"-{n}");
            name = Shorten(Clean(wanted), LongestBaseName - ending.Length) + ending;
        }

        return name;
    }

    /// <summary>Marks names as given out, such as those already in the folder.</summary>
    public void Occupy(string name) => _taken.Add(name);

    /// <summary>Whether a name was given out, whatever its case.</summary>
    public bool IsTaken(string name) => _taken.Contains(name);

    private static bool IsRefused(Rune rune) =>
        Rune.IsControl(rune) || rune.Value is '<' or '>' or ':' or '"' or '/' or '\\' or '|' or '?' or '*';

    // Cut between text elements, so that no accent loses its letter.
    private static string Shorten(string name, int bytes)
    {
        if (Encoding.UTF8.GetByteCount(name) <= bytes)
            return name;
        var kept = new StringBuilder();
        var used = 0;
        var elements = StringInfo.GetTextElementEnumerator(name);
        while (elements.MoveNext())
        {
            var element = elements.GetTextElement();
            used += Encoding.UTF8.GetByteCount(element);
            if (used > bytes)
                break;
            kept.Append(element);
        }

        return kept.ToString().TrimEnd(' ', '.');
    }
}
