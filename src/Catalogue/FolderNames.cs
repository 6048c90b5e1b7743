using System.Globalization;
using System.Text;

namespace Athwart.Catalogue;

/// <summary>Folder names that every common file system takes.</summary>
internal static class FolderNames
{
    // Most file systems stop at 255 bytes or units; this leaves room for the date and a number.
    private const int LongestBytes = 200;
    private const string Forbidden = "/\\:*?\"<>|";

    /// <summary>The name without what a file system may refuse: such characters become '-', an end of dots and spaces goes.</summary>
    public static string Safe(string name)
    {
        var text = new StringBuilder(name.Length);
        foreach (var rune in name.EnumerateRunes())
        {
            var bad = Rune.IsControl(rune) || rune == Rune.ReplacementChar || (rune.IsAscii && Forbidden.Contains((char)rune.Value, StringComparison.Ordinal));
            var next = bad ? new Rune('-') : rune;
            if (Encoding.UTF8.GetByteCount(text.ToString()) + next.Utf8SequenceLength > LongestBytes)
                break;
            text.Append(next.ToString());
        }

        return text.ToString().Trim().TrimEnd('.', ' ');
    }

    /// <summary>'originals/2026-11-25 Canal lock', or with ' (2)' and so on where that is taken.</summary>
    public static string ForSession(Session session, Func<string, bool> taken)
    {
        var stem = $"{Library.OriginalsName}/{Rows.Text(session.Date)} {Safe(session.Name)}".TrimEnd();
        var folder = stem;
        for (var number = 2; taken(folder); number++)
            folder = string.Create(CultureInfo.InvariantCulture, $"{stem} ({number})");
        return folder;
    }
}
