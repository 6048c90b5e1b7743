using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace Athwart.Accuracy;

/// <summary>Stereo recordings of the Debian package sonic-pi-samples (CC0), decoded by ffmpeg.</summary>
internal static class RealTakes
{
    private const string Folder = "/usr/share/sonic-pi/samples";

    /// <summary>Files of 4 s and more with two different channels, by name.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        "ambi_drone", "ambi_glass_hum", "ambi_haunted_hum", "ambi_lunar_land", "ambi_sauna", "bass_thick_c", "bass_voxy_c", "guit_e_fifths",
        "guit_em9", "loop_3d_printer", "loop_compus", "loop_drone_g_97", "loop_garzul", "loop_mika", "loop_safari", "loop_tabla",
        "loop_weirdo", "misc_cineboom", "perc_bell", "perc_bell2", "vinyl_hiss",
    ];

    public static BaseTake Read(int number)
    {
        var (left, right) = Decode(Path.Combine(Folder, Names[number] + ".flac"), 44_100);
        return BaseTake.Real(number, left, right, 44_100, Names[number]);
    }

    /// <summary>Pieces of 12 s of every stereo recording below a folder, by name.</summary>
    public static List<(string Name, string Path, double From)> Pieces(string folder)
    {
        var pieces = new List<(string, string, double)>();
        foreach (var path in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var parts = Encoding.ASCII.GetString(Run("ffprobe", "-v", "quiet", "-select_streams", "a", "-show_entries", "stream=channels,duration:format=duration", "-of", "default=nw=1:nk=1", path)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
            if (parts.Length < 2 || parts[0] is not "2" || !double.TryParse(parts[^1], CultureInfo.InvariantCulture, out var seconds))
                continue;
            for (var from = 0.0; from + 4 <= seconds; from += 12)
                pieces.Add((string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileNameWithoutExtension(path).Replace(' ', '_')}@{from:0}"), path, from));
        }

        return pieces;
    }

    /// <summary>One piece of a recording, at its own rate.</summary>
    public static BaseTake ReadPiece(int number, (string Name, string Path, double From) piece)
    {
        var rate = Rate(piece.Path);
        var both = MemoryMarshal.Cast<byte, float>(Run("ffmpeg", "-v", "error", "-ss", piece.From.ToString(CultureInfo.InvariantCulture), "-t", "12", "-i", piece.Path, "-f", "f32le", "-ac", "2", "-")).ToArray();
        return BaseTake.Real(number, [.. both.Where((_, i) => i % 2 == 0)], [.. both.Where((_, i) => i % 2 == 1)], rate, piece.Name);
    }

    private static int Rate(string path) => int.Parse(Encoding.ASCII.GetString(Run("ffprobe", "-v", "error", "-select_streams", "a", "-show_entries", "stream=sample_rate", "-of", "csv=p=0", path)).Trim(), CultureInfo.InvariantCulture);

    /// <summary>Two channels of a file at a rate, by ffmpeg.</summary>
    public static (float[] First, float[] Second) Decode(string path, int rate)
    {
        var both = MemoryMarshal.Cast<byte, float>(Run("ffmpeg", "-v", "error", "-i", path, "-f", "f32le", "-af", "pan=stereo|c0=c0|c1=c1", "-ar", rate.ToString(CultureInfo.InvariantCulture), "-")).ToArray();
        return ([.. both.Where((_, i) => i % 2 == 0)], [.. both.Where((_, i) => i % 2 == 1)]);
    }

    /// <summary>Prints every finding of a file.</summary>
    public static void Print(string path)
    {
        var rate = Rate(path);
        var (first, second) = Decode(path, rate);
        foreach (var finding in FaultRun.Check(first, second, rate, Scenes.Rigs.SampleWord.Bits24))
            Console.WriteLine($"{Path.GetFileName(path)}: {finding.Severity} {finding.Kind} {finding.Message} [{string.Join("; ", finding.Evidence.Take(6))}]");
    }

    private static byte[] Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, UseShellExecute = false };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        using var bytes = new MemoryStream();
        process.StandardOutput.BaseStream.CopyTo(bytes);
        process.WaitForExit();
        return bytes.ToArray();
    }
}
