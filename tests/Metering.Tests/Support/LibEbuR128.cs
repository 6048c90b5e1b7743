using System.Runtime.InteropServices;
using Athwart.Tests.Shared;

namespace Athwart.Metering.Tests.Support;

/// <summary>The system's libebur128 as an outside judge.</summary>
internal static partial class LibEbuR128
{
    // EBUR128_MODE_I | LRA | TRUE_PEAK with what they imply, from its public header.
    internal const int Modes = 0b000101 | 0b001011 | 0b110001;
    internal const string Library = "libebur128.so.1";

    public static (double Integrated, double Range, double TruePeak) Measure(float[] left, float[] right, int rate)
    {
        if (!NativeLibrary.TryLoad(Library, out _))
            ReferenceProgram.Missing<int>($"'{Library}' is not on this machine; .ci/run installs libebur128-1");
        var state = Init(2, (nuint)rate, Modes);
        try
        {
            var frames = new float[left.Length * 2];
            for (var i = 0; i < left.Length; i++)
                (frames[2 * i], frames[(2 * i) + 1]) = (left[i], right[i]);
            Assert.Equal(0, AddFrames(state, frames, (nuint)left.Length));
            Assert.Equal(0, LoudnessGlobal(state, out var integrated) | LoudnessRange(state, out var range));
            Assert.Equal(0, TruePeak(state, 0, out var first) | TruePeak(state, 1, out var second));
            return (integrated, range, 20 * Math.Log10(Math.Max(first, second)));
        }
        finally
        {
            Destroy(ref state);
        }
    }

    [LibraryImport(Library, EntryPoint = "ebur128_init")]
    private static partial nint Init(uint channels, nuint rate, int mode);

    [LibraryImport(Library, EntryPoint = "ebur128_destroy")]
    private static partial void Destroy(ref nint state);

    [LibraryImport(Library, EntryPoint = "ebur128_add_frames_float")]
    private static partial int AddFrames(nint state, float[] frames, nuint count);

    [LibraryImport(Library, EntryPoint = "ebur128_loudness_global")]
    private static partial int LoudnessGlobal(nint state, out double value);

    [LibraryImport(Library, EntryPoint = "ebur128_loudness_range")]
    private static partial int LoudnessRange(nint state, out double value);

    [LibraryImport(Library, EntryPoint = "ebur128_true_peak")]
    private static partial int TruePeak(nint state, uint channel, out double value);
}
