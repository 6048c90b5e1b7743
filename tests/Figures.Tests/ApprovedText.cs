using System.Runtime.CompilerServices;

namespace Athwart.Figures.Tests;

/// <summary>Compares a text with the one a person looked at and stored; a missing one fails.</summary>
internal static class ApprovedText
{
    public static void Matches(string text, [CallerMemberName] string test = "")
    {
        var approved = Path.Combine(Folder(), test + ".txt");
        var received = Path.Combine(Folder(), test + ".received.txt");
        if (File.Exists(approved) && string.Equals(File.ReadAllText(approved), text, StringComparison.Ordinal))
        {
            File.Delete(received);
            return;
        }

        File.WriteAllText(received, text);
        if (!File.Exists(approved))
            Assert.Fail($"nothing is approved yet: look at {received} and rename it to {test}.txt");
        Assert.Equal(File.ReadAllText(approved), text);
    }

    private static string Folder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Athwart.slnx")))
            folder = folder.Parent;
        return Path.Combine(folder?.FullName ?? throw new InvalidOperationException("Athwart.slnx is not above the tests"), "tests", "Figures.Tests", "Approved");
    }
}
