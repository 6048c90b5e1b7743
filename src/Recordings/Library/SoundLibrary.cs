using System.Runtime.InteropServices;
using System.Text;

namespace Athwart.Recordings;

/// <summary>The system's libsndfile (LGPL), loaded when the first FLAC or AIFF file is met and never before.</summary>
internal sealed unsafe class SoundLibrary
{
    /// <summary>SF_INFO of sndfile.h, version 1.</summary>
    [StructLayout(LayoutKind.Sequential)]
    public struct Info
    {
        public long Frames;
        public int SampleRate;
        public int Channels;
        public int Format;
        public int Sections;
        public int Seekable;
    }

    private const int ModeRead = 0x10;
    private static readonly Lazy<SoundLibrary?> System = new(() => TryLoad(["libsndfile.so.1", "libsndfile.1.dylib", "libsndfile-1.dll", "sndfile.dll"]));
    private readonly delegate* unmanaged<byte*, int, Info*, nint> _open;
    private readonly delegate* unmanaged<nint, long, int, long> _seek;
    private readonly delegate* unmanaged<nint, int*, long, long> _readInt;
    private readonly delegate* unmanaged<nint, double*, long, long> _readDouble;
    private readonly delegate* unmanaged<nint, int, byte*> _getString;
    private readonly delegate* unmanaged<nint, byte*> _error;
    private readonly delegate* unmanaged<nint, int> _close;

    private SoundLibrary(nint library)
    {
        _open = (delegate* unmanaged<byte*, int, Info*, nint>)NativeLibrary.GetExport(library, "sf_open");
        _seek = (delegate* unmanaged<nint, long, int, long>)NativeLibrary.GetExport(library, "sf_seek");
        _readInt = (delegate* unmanaged<nint, int*, long, long>)NativeLibrary.GetExport(library, "sf_readf_int");
        _readDouble = (delegate* unmanaged<nint, double*, long, long>)NativeLibrary.GetExport(library, "sf_readf_double");
        _getString = (delegate* unmanaged<nint, int, byte*>)NativeLibrary.GetExport(library, "sf_get_string");
        _error = (delegate* unmanaged<nint, byte*>)NativeLibrary.GetExport(library, "sf_strerror");
        _close = (delegate* unmanaged<nint, int>)NativeLibrary.GetExport(library, "sf_close");
    }

    /// <summary>The library, or the error that names the package to install.</summary>
    public static SoundLibrary Require(string path) => System.Value ?? throw Missing(path);

    /// <summary>The error for a machine without the library.</summary>
    public static RecordingException Missing(string path) => new(
        RecordingErrorKind.LibraryMissing,
        path,
        "FLAC and AIFF files are read through the library libsndfile, which is not on this machine",
        "Install it (on Debian and Ubuntu: apt install libsndfile1), or convert the file to WAVE");

    /// <summary>Tries names in turn; null when none is there.</summary>
    public static SoundLibrary? TryLoad(ReadOnlySpan<string> names)
    {
        foreach (var name in names)
        {
            if (NativeLibrary.TryLoad(name, out var library))
                return new(library);
        }

        return null;
    }

    /// <summary>Opens a file for reading; 0 and a message when that fails.</summary>
    public nint Open(string path, out Info info, out string error)
    {
        var name = Encoding.UTF8.GetBytes(path + '\0');
        var filled = default(Info);
        nint handle;
        fixed (byte* first = name)
            handle = _open(first, ModeRead, &filled);
        info = filled;
        error = handle == 0 ? Marshal.PtrToStringUTF8((nint)_error(0)) ?? "" : "";
        return handle;
    }

    /// <summary>Goes to a frame; false when that fails.</summary>
    public bool Seek(nint handle, long frame) => _seek(handle, frame, 0) == frame;

    /// <summary>Reads interleaved steps, left-justified in 32 bits.</summary>
    public long Read(nint handle, Span<int> interleaved, long frames)
    {
        fixed (int* first = interleaved)
            return _readInt(handle, first, frames);
    }

    /// <summary>Reads interleaved samples as stored in a float file.</summary>
    public long Read(nint handle, Span<double> interleaved, long frames)
    {
        fixed (double* first = interleaved)
            return _readDouble(handle, first, frames);
    }

    /// <summary>A text of the file; null when absent.</summary>
    public string? Text(nint handle, int kind) => Marshal.PtrToStringUTF8((nint)_getString(handle, kind));

    /// <summary>Closes a file.</summary>
    public void Close(nint handle) => _ = _close(handle);
}
