using System.Diagnostics;
using System.Runtime.InteropServices;

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
        var start = new ProcessStartInfo("ffmpeg") { RedirectStandardOutput = true };
        foreach (var argument in (string[])["-v", "error", "-i", Path.Combine(Folder, Names[number] + ".flac"), "-f", "f32le", "-ac", "2", "-ar", "44100", "-"])
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        using var bytes = new MemoryStream();
        process.StandardOutput.BaseStream.CopyTo(bytes);
        process.WaitForExit();
        var both = MemoryMarshal.Cast<byte, float>(bytes.ToArray()).ToArray();
        return BaseTake.Real(number, [.. both.Where((_, i) => i % 2 == 0)], [.. both.Where((_, i) => i % 2 == 1)], 44_100);
    }
}
