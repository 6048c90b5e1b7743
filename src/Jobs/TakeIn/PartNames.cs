using System.Security.Cryptography;
using System.Text;

namespace Athwart.Jobs.TakeIn;

/// <summary>The name a copy has until it is proved: the final name with an ending of our own.</summary>
internal static class PartNames
{
    private const string Ending = ".athwart.part";

    // Common limit of file systems: 255 bytes a name.
    private const int LongestName = 255;

    public static bool IsPart(string name) => name.EndsWith(Ending, StringComparison.Ordinal);

    public static string For(string target)
    {
        var name = Path.GetFileName(target);
        var bytes = Encoding.UTF8.GetBytes(name);
        var stem = bytes.Length + Ending.Length <= LongestName ? name : Convert.ToHexStringLower(SHA256.HashData(bytes));
        return Path.Combine(Path.GetDirectoryName(target) ?? "", stem + Ending);
    }

    public static IEnumerable<string> Below(string folder) => Directory.Exists(folder)
        ? Directory.EnumerateFiles(folder, "*" + Ending, new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.ReparsePoint })
        : [];
}
