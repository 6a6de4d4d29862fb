// SPDX-License-Identifier: AGPL-3.0-or-later
#include "io/drawing/offscreen_window.hpp"

#include <array>

#if CROWNPROOF_HAS_EGL
// GLEW must come before any other OpenGL header.
#include <GL/glew.h>

#include <EGL/egl.h>
#include <EGL/eglext.h>
#endif

#include <vtkCallbackCommand.h>
#include <vtkCommand.h>
#include <vtkGenericOpenGLRenderWindow.h>
#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkOutputWindow.h>
#include <vtkWindowToImageFilter.h>

namespace crownproof {
namespace {

#if CROWNPROOF_HAS_EGL

/// An OpenGL context of its own, current while the object lives.
class EglContext {
 public:
  EglContext() {
    const auto platform_display =
        reinterpret_cast<PFNEGLGETPLATFORMDISPLAYEXTPROC>(eglGetProcAddress("eglGetPlatformDisplayEXT"));
    if (platform_display == nullptr) fail("EGL offers no platform without a display");
    display_ = platform_display(EGL_PLATFORM_SURFACELESS_MESA, nullptr, nullptr);
    if (display_ == EGL_NO_DISPLAY || eglInitialize(display_, nullptr, nullptr) == EGL_FALSE) {
      display_ = EGL_NO_DISPLAY;
      fail("EGL cannot start without a display");
    }
    make_current();
    // GLEW built for X says that there is no X display, after it has loaded all functions.
    const GLenum loaded = glewInit();
    if (loaded != GLEW_OK && loaded != GLEW_ERROR_NO_GLX_DISPLAY)
      fail("the OpenGL functions cannot be loaded");
  }
  ~EglContext() { release(); }
  EglContext(const EglContext&) = delete;
  EglContext& operator=(const EglContext&) = delete;

 private:
  [[noreturn]] void fail(const std::string& why) {
    release();
    throw CannotDraw("this machine cannot draw: " + why +
                     ". On Debian, install libegl1, libegl-mesa0 and libgl1-mesa-dri.");
  }

  void make_current() {
    constexpr std::array<EGLint, 5> wanted{EGL_SURFACE_TYPE, EGL_PBUFFER_BIT, EGL_RENDERABLE_TYPE,
                                           EGL_OPENGL_BIT, EGL_NONE};
    constexpr std::array<EGLint, 5> size{EGL_WIDTH, 16, EGL_HEIGHT, 16,
                                         EGL_NONE};  // VTK draws in its own buffer
    constexpr std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                            3,
                                            EGL_CONTEXT_MINOR_VERSION,
                                            2,
                                            EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                            EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                            EGL_NONE};
    EGLConfig config = nullptr;
    EGLint found = 0;
    if (eglChooseConfig(display_, wanted.data(), &config, 1, &found) == EGL_FALSE || found == 0 ||
        eglBindAPI(EGL_OPENGL_API) == EGL_FALSE)
      fail("EGL offers no OpenGL");
    surface_ = eglCreatePbufferSurface(display_, config, size.data());
    context_ = eglCreateContext(display_, config, EGL_NO_CONTEXT, version.data());
    if (context_ == EGL_NO_CONTEXT || eglMakeCurrent(display_, surface_, surface_, context_) == EGL_FALSE)
      fail("EGL offers no OpenGL 3.2 context");
  }

  void release() {
    if (display_ == EGL_NO_DISPLAY) return;
    eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    if (context_ != EGL_NO_CONTEXT) eglDestroyContext(display_, context_);
    if (surface_ != EGL_NO_SURFACE) eglDestroySurface(display_, surface_);
    eglTerminate(display_);
    display_ = EGL_NO_DISPLAY;
  }

  EGLDisplay display_ = EGL_NO_DISPLAY;
  EGLSurface surface_ = EGL_NO_SURFACE;
  EGLContext context_ = EGL_NO_CONTEXT;
};

#else

struct EglContext {
  EglContext() { throw CannotDraw("this program was built without EGL."); }
};

#endif

/// VTK initialises GLEW itself and meets the same harmless complaint; this is its text in VTK 9.1.
constexpr std::string_view harmless = "GLEW could not be initialized";

/// Keeps VTK's messages instead of letting them run to the terminal.
void keep_complaint(vtkObject*, unsigned long, void* list, void* text) {
  const std::string message = text != nullptr ? static_cast<const char*>(text) : "unknown";
  if (message.find(harmless) == std::string::npos)
    static_cast<std::vector<std::string>*>(list)->push_back(message);
}

/// VTK's rows run from the bottom.
Image turned(vtkImageData& image) {
  const int* const size = image.GetDimensions();
  if (size[0] == 0 || size[1] == 0 || image.GetNumberOfScalarComponents() != 3)
    throw CannotDraw("the drawing came out empty.");
  Image pixels{size[0], size[1], {}};
  const std::ptrdiff_t row = 3 * static_cast<std::ptrdiff_t>(size[0]);
  const auto* const begin = static_cast<const unsigned char*>(image.GetScalarPointer());
  pixels.rgb.reserve(row * size[1]);
  for (int y = size[1] - 1; y >= 0; --y)
    pixels.rgb.insert(pixels.rgb.end(), begin + y * row, begin + (y + 1) * row);
  return pixels;
}

}  // namespace

struct OffscreenWindow::Parts {
  EglContext context;  // first: it must outlive VTK's window
  std::vector<std::string> complaints;
  vtkNew<vtkCallbackCommand> observer;
  vtkNew<vtkGenericOpenGLRenderWindow> window;
};

OffscreenWindow::OffscreenWindow(int width, int height) : parts_(std::make_unique<Parts>()) {
  parts_->observer->SetCallback(&keep_complaint);
  parts_->observer->SetClientData(&parts_->complaints);
  vtkGenericOpenGLRenderWindow& w = *parts_->window;
  w.AddObserver(vtkCommand::ErrorEvent, parts_->observer);
  w.AddObserver(vtkCommand::WarningEvent, parts_->observer);
  w.SetOwnContext(0);
  w.SetIsCurrent(true);
  w.SetReadyForRendering(true);
  w.SetMultiSamples(4);
  w.SetSize(width, height);
}

OffscreenWindow::~OffscreenWindow() = default;

vtkGenericOpenGLRenderWindow& OffscreenWindow::window() const {
  return *parts_->window;
}

Image OffscreenWindow::pixels() const {
  vtkNew<vtkWindowToImageFilter> grab;
  grab->SetInput(parts_->window);
  grab->SetInputBufferTypeToRGB();
  grab->ReadFrontBufferOff();
  grab->Update();
  return turned(*grab->GetOutput());
}

std::vector<std::string> OffscreenWindow::complaints() const {
  return parts_->complaints;
}

}  // namespace crownproof
