using System.Text;

namespace Athwart.Jobs.Demo;

/// <summary>What else lies on a recorder's card and is no recording.</summary>
internal static class DemoSidecars
{
    private const string Settings =
        "[recorder]\r\nfile name=LOCK\r\ninput 1=48V, low cut off\r\ninput 2=48V, low cut off\r\ndate=2026-05-14\r\nsplit=off\r\n";

    public static IReadOnlyList<DemoFile> Write(string folder, string below)
    {
        // A file system from another computer leaves its notes beside each file it looked at, under the file's own name and ending.
        var leftover = new byte[4096];
        Encoding.ASCII.GetBytes("not audio: folder view").CopyTo(leftover, 32);
        return
        [
            Put(folder, "SETTINGS.TXT", Encoding.ASCII.GetBytes(Settings), "The recorder's settings."),
            Put(folder, ".index", [0, 1, 0, 8, 0, 11], "The recorder's hidden index."),
            Put(folder, below + "/._LOCK-T01.WAV", leftover, "A hidden leftover that is called like a recording and is none."),
        ];
    }

    private static DemoFile Put(string folder, string path, byte[] bytes, string description)
    {
        File.WriteAllBytes(Path.Combine(folder, path), bytes);
        return new(path, null, bytes.Length, description);
    }
}
