using System.Runtime.InteropServices;
using Athwart.Tests.Shared;

namespace Athwart.Metering.Tests.Support;

/// <summary>Real stereo recordings of the Debian package sonic-pi-samples (CC0), decoded to raw floats by ffmpeg.</summary>
internal static class RealStereo
{
    public const int Rate = 44_100;

    /// <summary>Files of different character: ambience, loops, hiss, bass, percussion.</summary>
    public static readonly string[] Names =
    [
        "ambi_lunar_land", "ambi_glass_hum", "ambi_sauna", "vinyl_hiss", "loop_3d_printer",
        "loop_amen", "loop_safari", "loop_tabla", "guit_em9", "misc_cineboom", "perc_bell",
    ];

    public static string PathOf(string name) => ReferenceProgram.RequirePath($"/usr/share/sonic-pi/samples/{name}.flac");

    public static (float[] Left, float[] Right) Read(string name)
    {
        using var folder = new TemporaryFolder();
        var raw = folder.File("raw.f32");
        var result = ReferenceProgram.Run(ReferenceProgram.Require("ffmpeg"), "-v", "error", "-i", PathOf(name), "-f", "f32le", "-ac", "2", "-ar", "44100", raw);
        Assert.Equal(0, result.ExitCode);
        var both = MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(raw));
        var (left, right) = (new float[both.Length / 2], new float[both.Length / 2]);
        for (var i = 0; i < left.Length; i++)
            (left[i], right[i]) = (both[2 * i], both[(2 * i) + 1]);
        return (left, right);
    }

    /// <summary>mid = (l + r)/2, side = (l − r)/2: the decode at unity side gain is the recording.</summary>
    public static TakeMeasures Measure(string name)
    {
        var (left, right) = Read(name);
        return Tones.Take(left.Plus(right).Times(0.5), left.Plus(right.Times(-1)).Times(0.5), Rate);
    }
}
